/**
 * The letters of two of the fonts that every reader of PDF has (ISO 32000-1, 9.6.2.2), and how wide they are: what a page is
 * laid out by before a viewer sets it. Thousandths of the size of the font. Source: Adobe's Core 14 AFM files, Helvetica and
 * Helvetica-Bold. Sorted by width: the letters of one width stand in one line.
 */
export interface FontWidths {
  readonly name: string;
  /** Height of capitals (CapHeight). */
  readonly capitals: number;
  readonly letters: Readonly<Record<number, string>>;
}

export const helvetica: FontWidths = {
  name: 'Helvetica',
  capitals: 718,
  letters: {
    191: "'",
    222: 'ijl‘’‚',
    260: '|¦',
    278: ' !,./:;I[\\]ft ·ÌÍÎÏìíîï',
    333: '()-`r¡¨­¯²³´¸¹ˆ˜“”„‹›',
    334: '{}',
    350: '•',
    355: '"',
    365: 'º',
    370: 'ª',
    389: '*',
    400: '°',
    469: '^',
    500: 'JcksvxyzçýÿšŸž',
    537: '¶',
    556: '#$0123456789?L_abdeghnopqu¢£¤¥§«µ»àáâãäåèéêëðñòóôõöùúûüþƒ–†‡€',
    584: '+<=>~¬±×÷',
    611: 'FTZ¿ßøŽ',
    667: '&ABEKPSVXYÀÁÂÃÄÅÈÉÊËÝÞŠ',
    722: 'CDHNRUwÇÐÑÙÚÛÜ',
    737: '©®',
    778: 'GOQÒÓÔÕÖØ',
    833: 'Mm',
    834: '¼½¾',
    889: '%æ',
    944: 'Wœ',
    1000: 'ÆŒ—…‰™',
    1015: '@',
  },
};

export const helveticaBold: FontWidths = {
  name: 'Helvetica-Bold',
  capitals: 718,
  letters: {
    238: "'",
    278: ' ,./I\\ijl ·ÌÍÎÏìíîï‘’‚',
    280: '|¦',
    333: '!()-:;[]`ft¡¨­¯²³´¸¹ˆ˜‹›',
    350: '•',
    365: 'º',
    370: 'ª',
    389: '*r{}',
    400: '°',
    474: '"',
    500: 'zž“”„',
    556: '#$0123456789J_aceksvxy¢£¤¥§«¶»àáâãäåçèéêëýÿšŸƒ–†‡€',
    584: '+<=>^~¬±×÷',
    611: '?FLTZbdghnopquµ¿ßðñòóôõöøùúûüþŽ',
    667: 'EPSVXYÈÉÊËÝÞŠ',
    722: '&ABCDHKNRUÀÁÂÃÄÅÇÐÑÙÚÛÜ',
    737: '©®',
    778: 'GOQwÒÓÔÕÖØ',
    833: 'M',
    834: '¼½¾',
    889: '%mæ',
    944: 'Wœ',
    975: '@',
    1000: 'ÆŒ—…‰™',
  },
};

/** Codes of WinAnsiEncoding (ISO 32000-1, Annex D.2) that aren't Latin-1's own, from 128 on; a blank where there is none. */
export const winAnsiFrom128 = '€ ‚ƒ„…†‡ˆ‰Š‹Œ Ž  ‘’“”•–—˜™š›œ žŸ';
