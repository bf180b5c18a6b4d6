// The page Listen: what only the browser can do. The position of its own player on the picture, and its own sound input, asked for by the browser.
(() => {
  'use strict';
  document.addEventListener('timeupdate', event => {
    const sound = event.target;
    const head = document.querySelector('[data-head]');
    if (!(sound instanceof HTMLAudioElement) || !head) return;
    const at = Math.min(1, sound.currentTime / Number(sound.dataset.seconds));
    head.setAttribute('transform', `translate(${at * Number(head.dataset.head)} 0)`);
  }, true);

  let input = null;
  const end = () => {
    if (!input) return;
    input.node?.disconnect();
    input.stream?.getTracks().forEach(t => t.stop());
    input.context?.close();
    input = null;
  };

  Object.assign(window.spurless, {
    seek: (id, seconds) => { const e = document.getElementById(id); if (e instanceof HTMLAudioElement) e.currentTime = seconds; },
    hear: async page => {
      end();
      const mine = input = {};
      try {
        mine.stream = await navigator.mediaDevices.getUserMedia({ audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false } });
        if (input !== mine) { mine.stream.getTracks().forEach(t => t.stop()); return; }
        mine.context = new AudioContext({ sampleRate: 48000 });
        const source = mine.context.createMediaStreamSource(mine.stream);
        mine.node = mine.context.createScriptProcessor(16384, 1, 1); // a third of a second
        let held = [], waiting = false;
        mine.node.onaudioprocess = async e => {
          const x = e.inputBuffer.getChannelData(0);
          const bytes = new Uint8Array(2 * x.length), view = new DataView(bytes.buffer);
          for (let i = 0; i < x.length; i++) view.setInt16(2 * i, Math.round(32767 * Math.max(-1, Math.min(1, x[i]))), true);
          held.push(bytes);
          if (waiting || input !== mine) return;
          waiting = true;
          try {
            const now = held.splice(0).slice(-8); // whatever a slow machine cannot follow is passed over
            const all = new Uint8Array(now.reduce((n, b) => n + b.length, 0));
            now.reduce((at, b) => { all.set(b, at); return at + b.length; }, 0);
            await page.invokeMethodAsync('LiveSound', all, mine.context?.sampleRate ?? 48000);
          } catch { if (input === mine) end(); } finally { waiting = false; }
        };
        source.connect(mine.node);
        mine.node.connect(mine.context.destination);
      } catch (fault) {
        if (input === mine) end();
        page.invokeMethodAsync('LiveEnded', `the browser gives no sound (${fault.name}); allow the microphone for this page, or connect one`).catch(() => { });
      }
    },
    deaf: end,
  });
})();
