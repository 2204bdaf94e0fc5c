/** Deliberate errors in the text of a DXF file: every vertex of the plate's outline as it is written, changed and put back. */

export interface WrittenVertex {
  readonly x: number;
  readonly y: number;
}

/** The file with each vertex of the polylines on a layer moved; `turnsOver` for a change that mirrors, so arcs keep their side. */
export function withVertices(
  dxf: string,
  layer: string,
  change: (vertex: WrittenVertex) => WrittenVertex,
  turnsOver = false,
): string {
  const lines = dxf.split(/\r?\n/);
  let entity = '';
  let on = '';
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = Number(lines[i]);
    const value = (lines[i + 1] ?? '').trim();
    if (code === 0) [entity, on] = [value, ''];
    if (code === 8) on = value;
    if (entity !== 'LWPOLYLINE' || on !== layer) continue;
    if (code === 10 && Number(lines[i + 2]) === 20) {
      const { x, y } = change({ x: Number(value), y: Number(lines[i + 3]) });
      lines[i + 1] = `${x}`;
      lines[i + 3] = `${y}`;
    }
    if (code === 42 && turnsOver) lines[i + 1] = `${-Number(value)}`;
  }
  return lines.join('\n');
}

/** The file with a group of every polyline on a layer changed, such as 70, its flags. */
export function withGroup(dxf: string, layer: string, code: number, value: string): string {
  const lines = dxf.split(/\r?\n/);
  let entity = '';
  let on = '';
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const now = Number(lines[i]);
    if (now === 0) [entity, on] = [(lines[i + 1] ?? '').trim(), ''];
    if (now === 8) on = (lines[i + 1] ?? '').trim();
    if (entity === 'LWPOLYLINE' && on === layer && now === code) lines[i + 1] = value;
  }
  return lines.join('\n');
}

/** The vertices of the polylines on a layer. */
export function verticesOn(dxf: string, layer: string): readonly WrittenVertex[] {
  const seen: WrittenVertex[] = [];
  withVertices(dxf, layer, (vertex) => {
    seen.push(vertex);
    return vertex;
  });
  return seen;
}
