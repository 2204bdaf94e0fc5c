import { inflateSync } from 'node:zlib';

/** A picture in shades of grey, 0 black to 255 white, row by row from the top. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly at: (column: number, row: number) => number;
}

/**
 * A PNG of eight bits a channel, red, green, blue and perhaps opacity, over white; enough for what
 * rsvg-convert writes. Chunks and filters as in the PNG specification (W3C, second edition), 5.3 and 9.2.
 */
export function pixelsOfPng(png: Buffer): Pixels {
  const width = png.readUInt32BE(16);
  const height = png.readUInt32BE(20);
  const channels = { 2: 3, 6: 4 }[png.readUInt8(25)] ?? 0;
  if (png.readUInt8(24) !== 8 || channels === 0 || png.readUInt8(28) !== 0)
    throw new Error('a PNG of another kind');
  const rows = unfiltered(inflateSync(imageData(png)), width * channels, height, channels);
  const at = (column: number, row: number): number => {
    const from = (row * width + column) * channels;
    const [red = 0, green = 0, blue = 0, opacity = 255] = rows.subarray(from, from + channels);
    return 255 - ((255 - (red + green + blue) / 3) * opacity) / 255;
  };
  return { width, height, at };
}

function imageData(png: Buffer): Buffer {
  const parts: Buffer[] = [];
  for (let at = 8; at < png.length; at += 12 + png.readUInt32BE(at)) {
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT')
      parts.push(png.subarray(at + 8, at + 8 + png.readUInt32BE(at)));
  }
  return Buffer.concat(parts);
}

function unfiltered(data: Buffer, stride: number, height: number, step: number): Uint8Array {
  const out = new Uint8Array(stride * height);
  for (let row = 0; row < height; row++) {
    const filter = data[row * (stride + 1)];
    for (let i = 0; i < stride; i++) {
      const here = row * stride + i;
      const left = i >= step ? (out[here - step] ?? 0) : 0;
      const up = row > 0 ? (out[here - stride] ?? 0) : 0;
      const corner = i >= step && row > 0 ? (out[here - stride - step] ?? 0) : 0;
      const guess = [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter ?? 0] ?? 0;
      out[here] = (data[row * (stride + 1) + 1 + i] ?? 0) + guess;
    }
  }
  return out;
}

function paeth(left: number, up: number, corner: number): number {
  const guess = left + up - corner;
  const [a, b, c] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)];
  if (a <= b && a <= c) return left;
  return b <= c ? up : corner;
}
