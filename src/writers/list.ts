/** Formats that hold a drawing as it is, each writer read only when it is used. A new one is a new line here. */
const writers = {
  svg: async () => (await import('./svg.js')).svgWriter,
  dxf: async () => (await import('./dxf/dxf.js')).dxfWriter,
  pdf: async () => (await import('./pdf/pdf.js')).pdfWriter,
};

export type DrawingFormat = keyof typeof writers;

/** Formats for machines, written from something else than a drawing: tool paths, or solids. */
const machineFormats = ['gcode', '3mf', 'stl'] as const;

export type MachineFormat = (typeof machineFormats)[number];

export type Format = DrawingFormat | MachineFormat;

export const formats = [...(Object.keys(writers) as readonly DrawingFormat[]), ...machineFormats];

export const isMachineFormat = (format: Format): format is MachineFormat =>
  machineFormats.some((one) => one === format);

/** The writer of a format, as the file of that format gives it, with its own options. */
export type WriterOf<F extends DrawingFormat> = Awaited<ReturnType<(typeof writers)[F]>>;

export const loadWriter = <F extends DrawingFormat>(format: F): Promise<WriterOf<F>> =>
  writers[format]() as Promise<WriterOf<F>>;
