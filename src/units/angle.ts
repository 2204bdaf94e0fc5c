/** Angles as text. Inside halfpin an angle is radians from square, that is from the bit's axis. */

export type AngleReading =
  | { readonly ok: true; readonly radians: number }
  | { readonly ok: false; readonly read: string; readonly wouldDo: readonly string[] };

/** Reads a number of degrees: `8`, `8°`, `8 deg`, `8 degrees`. Gives radians. */
export function readDegrees(written: string | number): AngleReading {
  const text = typeof written === 'number' ? String(written) : written.trim();
  const parts = /^(-?(?:\d+\.?\d*|\.\d+))\s*(?:°|deg|degree|degrees)?$/i.exec(text);
  if (parts !== null) return { ok: true, radians: (Number(parts[1]) * Math.PI) / 180 };
  return { ok: false, read: String(written), wouldDo: likelySlope(text) ?? ['8', '14'] };
}

/** Reads a slope, `1:8` (one across to eight along), or a number of degrees. Gives radians: atan(1/8). */
export function readSlope(written: string | number): AngleReading {
  if (typeof written === 'number') return readDegrees(written);
  const parts = /^(\d+\.?\d*|\.\d+)\s*:\s*(\d+\.?\d*|\.\d+)$/.exec(written.trim());
  if (parts === null) {
    const degrees = readDegrees(written);
    return degrees.ok ? degrees : { ...degrees, wouldDo: likelySlope(written) ?? ['1:8', '8 degrees'] };
  }
  const [across, along] = [Number(parts[1]), Number(parts[2])];
  if (across > 0 && along > 0) return { ok: true, radians: Math.atan2(across, along) };
  return { ok: false, read: written, wouldDo: ['1:8', '8 degrees'] };
}

/** An angle in radians as degrees to 0.01°: `8°`, `7.13°`. */
export function formatDegrees(radians: number): string {
  return `${Number(((radians * 180) / Math.PI).toFixed(2)) + 0}°`;
}

/** An angle in radians as a slope to a hundredth: `1:8`, `1:4.8`. */
export function formatSlope(radians: number): string {
  return `1:${Number((1 / Math.tan(radians)).toFixed(2))}`;
}

/** `1/8`, `1 in 8` and `1 to 8` as the slope that they probably mean. */
function likelySlope(text: string): readonly string[] | undefined {
  const parts = /^(\d+\.?\d*)\s*(?:\/|in|to|:|-)\s*(\d+\.?\d*)$/i.exec(text.trim());
  return parts === null ? undefined : [`${parts[1]}:${parts[2]}`];
}
