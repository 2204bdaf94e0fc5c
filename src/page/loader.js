// Unpacks the page's script and runs it. A script of its own text, so that its hash in the policy lets it run.
(async () => {
  const words = document.getElementById('packed-app').textContent;
  const bytes = Uint8Array.from(atob(words), (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate'));
  const script = document.createElement('script');
  script.textContent = await new Response(stream).text();
  document.head.append(script);
})();
