import type { openSolidView } from './solid/solid-view.js';

/** Parts of the page that are carried packed (deflate, base64) and unpacked when they are asked for. */
export async function loadSolidView(): Promise<{ readonly openSolidView: typeof openSolidView }> {
  const view = globalThis as { halfpinSolidView?: { readonly openSolidView: typeof openSolidView } };
  if (!view.halfpinSolidView) {
    const script = document.createElement('script');
    script.textContent = await unpacked('packed-solid-view');
    document.head.append(script);
  }
  if (!view.halfpinSolidView) throw new Error('the solid view was not unpacked');
  return view.halfpinSolidView;
}

async function unpacked(id: string): Promise<string> {
  const words = document.getElementById(id)?.textContent ?? '';
  const bytes = Uint8Array.from(atob(words), (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate'));
  return new Response(stream).text();
}
