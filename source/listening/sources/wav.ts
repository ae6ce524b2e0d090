import type {PcmFormat} from './pcm.ts';

/**
 * The head of a WAV stream, read as it comes in: our own, because libraries
 * want the whole file at once and a recorder's stream has no end (its sizes are
 * zero or all ones).
 *
 * @see Multimedia Programming Interface and Data Specifications 1.0, IBM and
 * Microsoft, 1991, for RIFF; WAVE_FORMAT_EXTENSIBLE from memory.
 */
export type WavHead =
	/** Sound begins at byte `dataFrom`; it ends after `dataBytes`, if the head says so. */
	| {readonly kind: 'head'; readonly format: PcmFormat; readonly dataFrom: number; readonly dataBytes?: number}
	/** More bytes are needed. */
	| {readonly kind: 'incomplete'}
	/** Not a WAV stream, or one that is not plain samples. */
	| {readonly kind: 'not-wav'};

const plain = 1;
const floating = 3;
const extensible = 0xfffe;
/** A head longer than this is no head. */
const longestHead = 1 << 20;

/** Whether a stream starts like a WAV file; undefined while too short to tell. */
export function startsLikeWav(bytes: Uint8Array): boolean | undefined {
	if (bytes.length < 4) return undefined;
	return ['RIFF', 'RF64'].includes(textAt(bytes, 0));
}

/** Reads the head from the first bytes of a stream. */
export function readWavHead(bytes: Uint8Array): WavHead {
	if (bytes.length < 12) return startsLikeWav(bytes) === false ? {kind: 'not-wav'} : {kind: 'incomplete'};
	if (!startsLikeWav(bytes) || textAt(bytes, 8) !== 'WAVE') return {kind: 'not-wav'};
	const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
	let format: PcmFormat | undefined;
	for (let at = 12; at + 8 <= bytes.length; ) {
		const id = textAt(bytes, at);
		const size = view.getUint32(at + 4, true);
		if (id === 'data') {
			if (!format) return {kind: 'not-wav'};
			const isOpen = size === 0 || size >= 0x7fff_0000;
			return {kind: 'head', format, dataFrom: at + 8, ...(isOpen ? {} : {dataBytes: size})};
		}

		if (at + 8 + size > longestHead) return {kind: 'not-wav'};
		if (id === 'fmt ') {
			if (at + 8 + size > bytes.length) return {kind: 'incomplete'};
			format = size >= 16 ? formatAt(view, at + 8, size) : undefined;
			if (!format) return {kind: 'not-wav'};
		}

		// Chunks start at even places.
		at += 8 + size + (size % 2);
	}

	return bytes.length > longestHead ? {kind: 'not-wav'} : {kind: 'incomplete'};
}

function formatAt(view: DataView, at: number, size: number): PcmFormat | undefined {
	const tag = view.getUint16(at, true);
	const channels = view.getUint16(at + 2, true);
	const sampleRateHz = view.getUint32(at + 4, true);
	const bits = view.getUint16(at + 14, true);
	// The first two bytes of the sub-format say what the tag would.
	const kind = tag === extensible && size >= 40 ? view.getUint16(at + 24, true) : tag;
	if (channels < 1 || channels > 64 || sampleRateHz < 8000 || sampleRateHz > 768_000) return undefined;
	if (kind === plain && (bits === 8 || bits === 16 || bits === 24 || bits === 32))
		return {encoding: 'int', bits, channels, sampleRateHz};
	if (kind === floating && (bits === 32 || bits === 64)) return {encoding: 'float', bits, channels, sampleRateHz};
	return undefined;
}

function textAt(bytes: Uint8Array, at: number): string {
	return String.fromCharCode(...bytes.subarray(at, at + 4));
}
