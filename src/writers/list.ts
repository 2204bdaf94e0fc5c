/** Every file format, each read only when it is used. A new format is a new line here. */
const writers = {
  svg: async () => (await import('./svg.js')).svgWriter,
  dxf: async () => (await import('./dxf/dxf.js')).dxfWriter,
  pdf: async () => (await import('./pdf/pdf.js')).pdfWriter,
  gcode: async () => (await import('./gcode.js')).gcodeWriter,
  '3mf': async () => (await import('./solids/threemf.js')).threeMfWriter,
  stl: async () => (await import('./solids/stl.js')).stlWriter,
};

export type Format = keyof typeof writers;

/** Formats for machines, which want more than a drawing: a program, or the thickness of the sheet. */
export type MachineFormat = Extract<Format, 'gcode' | '3mf' | 'stl'>;

/** Formats that hold a drawing as it is. */
export type DrawingFormat = Exclude<Format, MachineFormat>;

export const isMachineFormat = (format: Format): format is MachineFormat =>
  format === 'gcode' || format === '3mf' || format === 'stl';

/** The writer of a format, as the file of that format gives it, with its own options. */
export type WriterOf<F extends Format> = Awaited<ReturnType<(typeof writers)[F]>>;

export const formats = Object.keys(writers) as readonly Format[];

export const isFormat = (name: string): name is Format => Object.hasOwn(writers, name);

export const loadWriter = <F extends Format>(format: F): Promise<WriterOf<F>> =>
  writers[format]() as Promise<WriterOf<F>>;
