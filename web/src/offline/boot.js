// Unpacks the parts of the one-file page. It stands in the page as it is here: its hash is in the page's policy.
(async () => {
  const unpack = async (id) => {
    const element = document.getElementById(`packed-${id}`);
    const bytes = Uint8Array.from(atob(element.textContent.trim()), (letter) => letter.charCodeAt(0));
    element.remove();
    return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))).arrayBuffer();
  };
  const address = async (id) => URL.createObjectURL(new Blob([await unpack(id)], { type: 'text/javascript' }));
  window.lobewiseParts = { engine: await unpack('engine'), worker: await address('worker') };
  const style = document.createElement('style');
  style.textContent = new TextDecoder().decode(await unpack('style'));
  document.head.append(style);
  const script = document.createElement('script');
  script.src = await address('page');
  document.body.append(script);
})().catch((error) => {
  document.getElementById('opening').textContent =
    `This browser cannot open the hand-over; one of 2023 or later can. (${error})`;
});
