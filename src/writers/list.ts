/** Every file format, each read only when it is used. A new format is a new line here. */
const writers = {
  svg: async () => (await import('./svg.js')).svgWriter,
  dxf: async () => (await import('./dxf.js')).dxfWriter,
  pdf: async () => (await import('./pdf.js')).pdfWriter,
};

export type Format = keyof typeof writers;

/** The writer of a format, as the file of that format gives it, with its own options. */
export type WriterOf<F extends Format> = Awaited<ReturnType<(typeof writers)[F]>>;

export const formats = Object.keys(writers) as readonly Format[];

export const isFormat = (name: string): name is Format => Object.hasOwn(writers, name);

export const loadWriter = <F extends Format>(format: F): Promise<WriterOf<F>> =>
  writers[format]() as Promise<WriterOf<F>>;
