// What keeps the command small: unused parts of two packages, which do not say so themselves, stay out of it.

/** Only English of zod's own messages: halfpin's findings have their own words (src/findings/wording). */
const zodLocales = /zod[\\/]v4[\\/]locales[\\/]index\.js$/;

/** halfpin writes a JSON Schema of its own jobs and reads none. */
const zodFromSchema = /zod[\\/]v4[\\/]classic[\\/]from-json-schema\.js$/;

/**
 * pdf-lib's modules define things and do nothing else when they are read, but its package.json leaves that
 * unsaid; so esbuild would keep forms, fonts and readers that the PDF writer never calls.
 */
const pdfLib = /^@cantoo[\\/]pdf-lib$/;
const insidePdfLib = /@cantoo[\\/]pdf-lib[\\/]/;

/** pdf-lib asks culori for the colours of CSS, by words that halfpin never gives it. */
const cssColours = /^culori$/;

export const slim = {
  name: 'slim',
  setup(build) {
    build.onLoad({ filter: zodLocales }, () => ({ contents: "export { default as en } from './en.js';" }));
    build.onLoad({ filter: zodFromSchema }, () => ({
      contents: "export function fromJSONSchema() { throw new Error('left out of this bundle'); }",
    }));
    build.onResolve({ filter: cssColours }, ({ importer }) =>
      insidePdfLib.test(importer) ? { path: 'culori', namespace: 'left-out', sideEffects: false } : undefined,
    );
    build.onLoad({ filter: cssColours, namespace: 'left-out' }, () => ({
      contents: 'export const converter = () => () => undefined;',
    }));
    build.onResolve({ filter: /./ }, async ({ path, pluginData, ...from }) => {
      if (pluginData === 'asked before') return undefined;
      if (!pdfLib.test(path) && !insidePdfLib.test(from.importer)) return undefined;
      const { errors, warnings, ...found } = await build.resolve(path, {
        ...from,
        pluginData: 'asked before',
      });
      return { ...found, errors, warnings, sideEffects: false };
    });
  },
};
