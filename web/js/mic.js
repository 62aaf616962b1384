// The microphone: opened, listened to frame by frame, and really let go again.
// Nothing of it is kept.

const RATE = 48000; // Hz: what the voice detection was made for

const REASONS = {
  NotAllowedError: 'The browser does not let this page use the microphone: allow it in the browser’s settings for this page, then try again.',
  NotFoundError: 'No microphone was found: plug one in, then try again.',
  NotReadableError: 'The microphone cannot be used just now: close what else is using it, then try again.',
};

/**
 * Opens the microphone. Rejects with a sentence that says what is missing.
 * @param {function} onFrame takes {pcm: Int16Array, level, chance}, each 20 ms at 16 kHz; see ear-worklet.js
 * @param {function} onLost is called when the device goes
 * @returns {Promise<{stop: function}>}
 */
export async function openMic(onFrame, onLost) {
  if (!window.isSecureContext || !navigator.mediaDevices?.getUserMedia) {
    throw new Error('A browser gives no microphone to a page that came over plain http: open it by its https address. How this device comes to trust that is at /trust.');
  }
  let stream = null;
  let context = null;
  const stop = () => {
    stream?.getTracks().forEach((track) => track.stop());
    if (context && context.state !== 'closed') context.close();
  };
  try {
    stream = await navigator.mediaDevices.getUserMedia({
      audio: { channelCount: 1, echoCancellation: true, noiseSuppression: true, autoGainControl: true },
    });
    stream.getTracks().forEach((track) => { track.onended = onLost; });
    context = await listenTo(stream, onFrame);
    return { stop };
  } catch (error) {
    stop();
    throw new Error(REASONS[error.name] ?? `The microphone could not be opened: ${error.message}`);
  }
}

async function listenTo(stream, onFrame) {
  const { context, source } = connect(stream);
  await context.resume();
  const [voice] = await Promise.all([
    fetchVoice(),
    context.audioWorklet.addModule(new URL('./ear-worklet.js', import.meta.url)),
  ]);
  const ear = new AudioWorkletNode(context, 'ear', { processorOptions: { voice } });
  ear.port.onmessage = (e) => onFrame(e.data);
  source.connect(ear).connect(context.destination); // it gives out silence; unconnected it might not run
  return context;
}

// Some browsers do not convert the device's rate; then it is taken as it is.
function connect(stream) {
  try {
    return sourceOf(stream, new AudioContext({ sampleRate: RATE }));
  } catch {
    return sourceOf(stream, new AudioContext());
  }
}

function sourceOf(stream, context) {
  try {
    return { context, source: context.createMediaStreamSource(stream) };
  } catch (error) {
    context.close();
    throw error;
  }
}

// Without it, how loud it is tells whether somebody speaks.
async function fetchVoice() {
  try {
    const answer = await fetch(new URL('../wasm/rnnoise.wasm', import.meta.url));
    return answer.ok ? await answer.arrayBuffer() : null;
  } catch {
    return null;
  }
}
