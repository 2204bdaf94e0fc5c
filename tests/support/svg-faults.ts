import type { WrittenVertex } from './dxf-faults.js';

/** Deliberate errors in the text of an SVG file, as dxf-faults.ts makes them in a DXF file: y counts upward here too. */
export function withSvgVertices(
  svg: string,
  layer: string,
  change: (vertex: WrittenVertex) => WrittenVertex,
  turnsOver = false,
): string {
  return withGroupOf(svg, layer, (group) =>
    group.replace(/ d="([^"]*)"/g, (_, d: string) => {
      const moved = d.replace(
        /([ML]|A([\d.]+) ([\d.]+) 0 ([01]) ([01]) )([-\d.]+) ([-\d.]+)/g,
        (_all, command: string, rx, ry, large, sweep, x, y) => {
          const to = change({ x: Number(x), y: -Number(y) });
          const turn = turnsOver ? 1 - Number(sweep) : sweep;
          const head = command.startsWith('A') ? `A${rx} ${ry} 0 ${large} ${turn} ` : command;
          return `${head}${to.x} ${-to.y}`;
        },
      );
      return ` d="${moved}"`;
    }),
  );
}

/** The file with what stands in a layer's group changed. */
export function withGroupOf(svg: string, layer: string, change: (group: string) => string): string {
  return svg.replace(new RegExp(`(<g id="${layer}">)([\\s\\S]*?)(</g>)`), (_, open, group, close) => {
    return `${open}${change(group)}${close}`;
  });
}
