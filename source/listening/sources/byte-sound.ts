import {decodePcm, type PcmFormat, plainPcm} from './pcm.ts';
import {readSoundHead, startsWithHead} from './sound-head.ts';

/** A stream of bytes becoming sound: a WAV or AU stream if it starts like one, else plain 16-bit samples. */
export type ByteSound =
	| {readonly kind: 'head'; readonly bytes: Uint8Array; readonly otherwise: PcmFormat | undefined}
	| {readonly kind: 'data'; readonly format: PcmFormat; readonly rest: Uint8Array; readonly left?: number}
	| {readonly kind: 'not-sound'};

/**
 * @param rawRateHz Sample rate to assume when no head says it; undefined to
 * take streams with a head alone.
 */
export function startByteSound(rawRateHz: number | undefined): ByteSound {
	return {kind: 'head', bytes: new Uint8Array(0), otherwise: rawRateHz === undefined ? undefined : plainPcm(rawRateHz)};
}

/** Takes the next chunk; the samples in it, mean of channels, full scale = 1. */
export function takeBytes(
	sound: ByteSound,
	chunk: Uint8Array,
): {readonly sound: ByteSound; readonly samples: Float32Array} {
	if (sound.kind === 'not-sound') return {sound, samples: new Float32Array(0)};
	if (sound.kind === 'data') {
		const {format, rest, left} = sound;
		const wanted = left === undefined ? chunk : chunk.subarray(0, left);
		const block = decodePcm(format, rest, wanted);
		const next = {
			kind: 'data',
			format,
			rest: block.rest,
			...(left === undefined ? {} : {left: left - wanted.length}),
		} as const;
		return {sound: next, samples: block.samples};
	}

	const bytes = new Uint8Array(sound.bytes.length + chunk.length);
	bytes.set(sound.bytes);
	bytes.set(chunk, sound.bytes.length);
	const hasHead = startsWithHead(bytes);
	const waiting = {sound: {...sound, bytes}, samples: new Float32Array(0)};
	if (hasHead === undefined) return waiting;
	if (!hasHead) {
		if (!sound.otherwise) return {sound: {kind: 'not-sound'}, samples: new Float32Array(0)};
		return takeBytes({kind: 'data', format: sound.otherwise, rest: new Uint8Array(0)}, bytes);
	}

	const head = readSoundHead(bytes);
	if (head.kind === 'incomplete') return waiting;
	if (head.kind === 'not-sound') return {sound: {kind: 'not-sound'}, samples: new Float32Array(0)};
	const {format, dataFrom, dataBytes} = head;
	const data: ByteSound = {
		kind: 'data',
		format,
		rest: new Uint8Array(0),
		...(dataBytes === undefined ? {} : {left: dataBytes}),
	};
	return takeBytes(data, bytes.subarray(dataFrom));
}
