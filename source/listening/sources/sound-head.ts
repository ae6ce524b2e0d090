import type {PcmFormat} from './pcm.ts';

/**
 * The head of a WAV or AU stream, read as it comes in: our own, because libraries
 * want the whole file at once and a recorder's stream has no end (its sizes are
 * zero or all ones).
 *
 * @see Multimedia Programming Interface and Data Specifications 1.0, IBM and
 * Microsoft, 1991, for RIFF; WAVE_FORMAT_EXTENSIBLE and AU from memory.
 */
export type SoundHead =
	/** Sound begins at byte `dataFrom`; it ends after `dataBytes`, if the head says so. */
	| {readonly kind: 'head'; readonly format: PcmFormat; readonly dataFrom: number; readonly dataBytes?: number}
	/** More bytes are needed. */
	| {readonly kind: 'incomplete'}
	/** Neither kind of stream, or one that is not plain samples. */
	| {readonly kind: 'not-sound'};

const plain = 1;
const floating = 3;
const extensible = 0xfffe;
/** A head longer than this is no head. */
const longestHead = 1 << 20;

/** Whether a stream starts with a head; undefined while too short to tell. */
export function startsWithHead(bytes: Uint8Array): boolean | undefined {
	if (bytes.length < 4) return undefined;
	return ['RIFF', 'RF64', '.snd'].includes(textAt(bytes, 0));
}

/** Reads the head from the first bytes of a stream. */
export function readSoundHead(bytes: Uint8Array): SoundHead {
	if (startsWithHead(bytes) === false) return {kind: 'not-sound'};
	if (bytes.length < 12) return {kind: 'incomplete'};
	const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
	if (textAt(bytes, 0) === '.snd') return auHead(view);
	if (textAt(bytes, 8) !== 'WAVE') return {kind: 'not-sound'};
	let format: PcmFormat | undefined;
	for (let at = 12; at + 8 <= bytes.length; ) {
		const id = textAt(bytes, at);
		const size = view.getUint32(at + 4, true);
		if (id === 'data') {
			if (!format) return {kind: 'not-sound'};
			const isOpen = size === 0 || size >= 0x7fff_0000;
			return {kind: 'head', format, dataFrom: at + 8, ...(isOpen ? {} : {dataBytes: size})};
		}

		if (at + 8 + size > longestHead) return {kind: 'not-sound'};
		if (id === 'fmt ') {
			if (at + 8 + size > bytes.length) return {kind: 'incomplete'};
			format = size >= 16 ? formatAt(view, at + 8, size) : undefined;
			if (!format) return {kind: 'not-sound'};
		}

		// Chunks start at even places.
		at += 8 + size + (size % 2);
	}

	return bytes.length > longestHead ? {kind: 'not-sound'} : {kind: 'incomplete'};
}

/** AU: where sound begins, how much, encoding, rate, channels; all highest byte first. Some recorders write it to their output. */
function auHead(view: DataView): SoundHead {
	if (view.byteLength < 24) return {kind: 'incomplete'};
	const [dataFrom, size, encoding, sampleRateHz, channels] = [4, 8, 12, 16, 20].map(at => view.getUint32(at)) as [
		number,
		number,
		number,
		number,
		number,
	];
	const known = auEncodings[encoding];
	if (
		!known ||
		dataFrom < 24 ||
		dataFrom > longestHead ||
		channels < 1 ||
		channels > 64 ||
		sampleRateHz < 8000 ||
		sampleRateHz > 768_000
	)
		return {kind: 'not-sound'};
	if (view.byteLength < dataFrom) return {kind: 'incomplete'};
	const isOpen = size === 0 || size >= 0x7fff_0000;
	return {
		kind: 'head',
		format: {...known, channels, sampleRateHz, isBigEndian: true},
		dataFrom,
		...(isOpen ? {} : {dataBytes: size}),
	};
}

const auEncodings: Readonly<Record<number, Pick<PcmFormat, 'encoding' | 'bits'>>> = {
	3: {encoding: 'int', bits: 16},
	4: {encoding: 'int', bits: 24},
	5: {encoding: 'int', bits: 32},
	6: {encoding: 'float', bits: 32},
	7: {encoding: 'float', bits: 64},
};

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
