/** How samples lie in a stream of bytes, channels interleaved. */
export interface PcmFormat {
	readonly encoding: 'int' | 'float';
	/** Bits per sample: 8 (unsigned), 16, 24, 32 as whole numbers; 32 or 64 as floating point. */
	readonly bits: 8 | 16 | 24 | 32 | 64;
	readonly channels: number;
	readonly sampleRateHz: number;
	/** Highest byte first; default lowest first. */
	readonly isBigEndian?: boolean;
}

/** What recorders are asked for. */
export const plainPcm = (sampleRateHz: number): PcmFormat => ({encoding: 'int', bits: 16, channels: 1, sampleRateHz});

/** Samples of whole frames, and the bytes of a frame still incomplete. */
export interface PcmBlock {
	/** Mean of the channels, full scale = 1. */
	readonly samples: Float32Array;
	readonly rest: Uint8Array;
}

/** Decodes a chunk of bytes that may end anywhere; hand `rest` back with the next. */
export function decodePcm(format: PcmFormat, rest: Uint8Array, chunk: Uint8Array): PcmBlock {
	const bytes = new Uint8Array(rest.length + chunk.length);
	bytes.set(rest);
	bytes.set(chunk, rest.length);
	const width = format.bits / 8;
	const frame = width * format.channels;
	const frames = Math.floor(bytes.length / frame);
	const view = new DataView(bytes.buffer);
	const samples = new Float32Array(frames);
	for (let i = 0; i < frames; i++) {
		let sum = 0;
		for (let c = 0; c < format.channels; c++) sum += sampleAt(view, i * frame + c * width, format);
		samples[i] = sum / format.channels;
	}

	return {samples, rest: bytes.slice(frames * frame)};
}

function sampleAt(view: DataView, at: number, {encoding, bits, isBigEndian = false}: PcmFormat): number {
	const isLittle = !isBigEndian;
	if (encoding === 'float') return bits === 64 ? view.getFloat64(at, isLittle) : view.getFloat32(at, isLittle);
	switch (bits) {
		case 8:
			return (view.getUint8(at) - 128) / 128;
		case 16:
			return view.getInt16(at, isLittle) / 32_768;
		case 24: {
			const high = view.getInt8(isBigEndian ? at : at + 2);
			const low = view.getUint16(isBigEndian ? at + 1 : at, isLittle);
			return (high * 65_536 + low) / 8_388_608;
		}

		default:
			return view.getInt32(at, isLittle) / 2_147_483_648;
	}
}
