/**
 * What calls when a time is over: tones made on the spot, vibration where there is any, and the browser's title. It goes on until
 * it is silenced. Browsers give no sound before the page is touched once; until then that is told.
 */
(function () {
  "use strict";

  /** @typedef {"over" | "look" | "closing" | "late"} Sort */

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const AGAIN = 4000;
  const BLINK = 1000;
  const LOUD = 0.9;
  /** Pitch in hertz, begin and length in seconds: they differ by how they go, not by pitch alone.
   * @type {Record<Sort, [number, number, number][]>} */
  const TONES = {
    over: [[1400, 0, 0.22], [1750, 0.28, 0.22], [2100, 0.56, 0.5]],
    look: [[1750, 0, 0.16], [1750, 0.3, 0.16]],
    closing: [[2100, 0, 0.2], [1400, 0.28, 0.2], [2100, 0.56, 0.2], [1400, 0.84, 0.2]],
    late: [[900, 0, 0.6], [700, 0.7, 0.9]],
  };
  /** @type {Record<Sort, number[]>} */
  const SHAKES = { over: [400, 150, 400, 150, 800], look: [250, 150, 250], closing: [250, 120, 250, 120, 250, 120, 250], late: [900, 200, 900] };

  /** @type {any} */
  let audio = null;
  /** @type {{sort: Sort, title: string} | null} */
  let calling = null;
  let [ringing, blinking] = [0, 0];
  let [own, shown] = ["", ""];
  /** @type {(() => void)[]} */
  const listeners = [];

  /** Whether this browser can sound at all. */
  function canSound() {
    return !!(page.AudioContext || page.webkitAudioContext);
  }

  /** Whether it would sound now. */
  function isOpen() {
    return audio?.state === "running";
  }

  /** Open the way for sound: browsers let that be done in a touch alone. */
  function open() {
    if (!canSound() || isOpen()) return;
    try {
      audio = audio || new (page.AudioContext || page.webkitAudioContext)();
      audio.onstatechange = () => listeners.forEach((heard) => heard());
      void audio.resume().then(() => calling && ring(), () => {});
    } catch {
      audio = null; // no sound card, or one that is taken: vibration and title are left
    }
  }

  /** @param {Sort} sort */
  function sound(sort) {
    if (!isOpen()) return;
    for (const [pitch, begin, length] of TONES[sort]) {
      const [tone, volume] = [audio.createOscillator(), audio.createGain()];
      const [from, to] = [audio.currentTime + begin, audio.currentTime + begin + length];
      tone.type = "square";
      tone.frequency.value = pitch;
      volume.gain.setValueAtTime(0, from);
      volume.gain.linearRampToValueAtTime(LOUD, from + 0.01);
      volume.gain.setValueAtTime(LOUD, to - 0.02);
      volume.gain.linearRampToValueAtTime(0, to);
      tone.connect(volume).connect(audio.destination);
      tone.start(from);
      tone.stop(to);
    }
  }

  /** Vibration too waits for the first touch; asked for sooner it is refused with a complaint. @param {Sort} sort */
  function shake(sort) {
    if (window.navigator.userActivation?.hasBeenActive) window.navigator.vibrate?.(SHAKES[sort]);
  }

  function ring() {
    if (!calling) return;
    sound(calling.sort);
    shake(calling.sort);
  }

  /** Only text is changed, and where motion is not wanted it stands still. */
  function blink() {
    if (!calling) return;
    if (document.title !== shown) own = document.title; // the page went on meanwhile
    const isStill = window.matchMedia("(prefers-reduced-motion: reduce)").matches;
    shown = isStill || document.title !== calling.title ? calling.title : own;
    document.title = shown;
  }

  /** Call until told otherwise; null is silence. @param {{sort: Sort, title: string} | null} next */
  function call(next) {
    const isNew = next && (!calling || calling.sort !== next.sort);
    const wasCalling = !!calling;
    calling = next;
    if (!next) return void (wasCalling && hush());
    if (!wasCalling) {
      own = shown = document.title;
      ringing = window.setInterval(ring, AGAIN);
      blinking = window.setInterval(blink, BLINK);
      blink();
    }
    if (isNew) ring();
  }

  function hush() {
    window.clearInterval(ringing);
    window.clearInterval(blinking);
    if (document.title === shown) document.title = own;
    if (window.navigator.userActivation?.hasBeenActive) window.navigator.vibrate?.(0);
  }

  /** Let somebody hear what it is like, in a touch. */
  function tryIt() {
    open();
    if (isOpen()) sound("over");
    else void audio?.resume().then(() => sound("over"), () => {});
    shake("over");
  }

  /** Tell when sound comes or goes. @param {() => void} heard */
  function onChange(heard) {
    listeners.push(heard);
  }

  for (const touch of ["pointerup", "keydown", "click"]) document.addEventListener(touch, open, true);

  seambook.bayAlarm = { call, tryIt, open, isOpen, canSound, onChange };
})();
