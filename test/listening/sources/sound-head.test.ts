import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {WaveFile} from 'wavefile';
import {startByteSound, takeBytes} from '../../../source/listening/sources/byte-sound.ts';
import {readSoundHead} from '../../../source/listening/sources/sound-head.ts';

/** Samples of a byte stream handed over in pieces cut at these places. */
function decoded(
	bytes: Uint8Array,
	cuts: readonly number[] = [],
	rawRateHz?: number,
): {readonly samples: number[]; readonly kind: string} {
	let sound = startByteSound(rawRateHz);
	const samples: number[] = [];
	const places = [...new Set([0, ...cuts.filter(c => c < bytes.length), bytes.length])].sort((a, b) => a - b);
	for (const [i, to] of places.entries()) {
		if (i === 0) continue;
		const taken = takeBytes(sound, bytes.subarray(places[i - 1], to));
		sound = taken.sound;
		samples.push(...taken.samples);
	}

	return {samples, kind: sound.kind};
}

const wave = Array.from({length: 500}, (_, i) => 0.8 * Math.sin(i / 7) + 0.1 * Math.sin(i / 1.3));

/** A file written by the npm package wavefile, and what that package itself reads back from it, full scale = 1. */
function written(
	bits: '8' | '16' | '24' | '32' | '32f' | '64',
	channels: 1 | 2,
): {readonly bytes: Uint8Array; readonly theirs: readonly number[]} {
	const isFloat = bits === '32f' || bits === '64';
	const full = isFloat ? 1 : 2 ** (Number(bits) - 1);
	const scaled = wave.map(x => (isFloat ? x : Math.round(x * (full - 1)) + (bits === '8' ? 128 : 0)));
	const file = new WaveFile();
	file.fromScratch(
		channels,
		44_100,
		bits,
		channels === 1
			? scaled
			: [
					scaled,
					scaled
						.map(x => (bits === '8' ? 128 : 0) + (x - (bits === '8' ? 128 : 0)) / 2)
						.map(x => (isFloat ? x : Math.round(x))),
				],
	);
	const bytes = file.toBuffer();
	const read = new WaveFile(bytes).getSamples(false, Float64Array) as unknown as Float64Array | Float64Array[];
	const tracks = Array.isArray(read) ? read : [read];
	const centre = bits === '8' ? 128 : 0;
	const theirs = Array.from(
		tracks[0]!,
		(_, i) => tracks.reduce((sum, t) => sum + (t[i]! - centre) / full, 0) / tracks.length,
	);
	return {bytes, theirs};
}

describe.each(['8', '16', '24', '32', '32f', '64'] as const)('%s bits', bits => {
	test.each([1, 2] as const)('%i channels: the same samples as the package reads', channels => {
		const {bytes, theirs} = written(bits, channels);
		const {samples} = decoded(bytes);
		expect(samples).toHaveLength(theirs.length);
		// Ours are single precision: 24 bits of it.
		for (const [i, x] of samples.entries()) expect(Math.abs(x - theirs[i]!)).toBeLessThan(1e-7);
	});
});

test('the head says rate, channels and length', () => {
	expect(readSoundHead(written('24', 2).bytes)).toMatchObject({
		kind: 'head',
		format: {encoding: 'int', bits: 24, channels: 2, sampleRateHz: 44_100},
		dataBytes: 500 * 6,
	});
});

test('bytes may be cut anywhere', () => {
	const {bytes} = written('24', 2);
	const whole = decoded(bytes).samples;
	fc.assert(
		fc.property(fc.array(fc.integer({min: 1, max: bytes.length - 1}), {maxLength: 20}), cuts => {
			expect(decoded(bytes, cuts).samples).toEqual(whole);
		}),
		{numRuns: 50},
	);
});

test('raw samples without a head are taken when a rate is given', () => {
	const bytes = Uint8Array.from([0, 0, 0, 64, 0, 192]);
	expect(decoded(bytes, [1, 2, 4], 48_000)).toEqual({samples: [0, 0.5, -0.5], kind: 'data'});
	expect(decoded(bytes).kind).toBe('not-sound');
});

test('a stream whose length nobody knows runs on', () => {
	const {bytes, theirs} = written('16', 1);
	const open = bytes.slice();
	const {dataFrom} = readSoundHead(bytes) as {dataFrom: number};
	open.fill(0xff, dataFrom - 4, dataFrom);
	expect(decoded(open).samples).toHaveLength(theirs.length);
});

test('what comes after the samples is not sound', () => {
	const {bytes, theirs} = written('16', 1);
	const {dataFrom} = readSoundHead(bytes) as {dataFrom: number};
	const longer = new Uint8Array(dataFrom + 2 * theirs.length + 64).fill(77);
	longer.set(bytes.subarray(0, dataFrom + 2 * theirs.length));
	expect(decoded(longer).samples).toHaveLength(theirs.length);
});

test('other files, compressed sound and nonsense are not sound', () => {
	const {bytes} = written('16', 1);
	const law = bytes.slice();
	law[20] = 7;
	expect(decoded(law).kind).toBe('not-sound');
	expect(decoded(new TextEncoder().encode('%PDF-1.7 and so on')).kind).toBe('not-sound');
	fc.assert(
		fc.property(fc.uint8Array({maxLength: 80}), junk => {
			const riff = new Uint8Array([...new TextEncoder().encode('RIFF....WAVE'), ...junk]);
			expect(['incomplete', 'not-sound', 'head']).toContain(readSoundHead(riff).kind);
		}),
	);
});

test('AU streams, which some recorders write, are sound too', () => {
	const head = new DataView(new ArrayBuffer(28));
	for (const [i, word] of [0x2e_73_6e_64, 28, 0xffff_ffff, 3, 48_000, 1, 0].entries()) head.setUint32(4 * i, word);
	const bytes = new Uint8Array([...new Uint8Array(head.buffer), 64, 0, 0xc0, 0, 0, 1]);
	const {samples} = decoded(bytes, [3, 10, 29, 31]);
	expect(samples).toEqual([0.5, -0.5, 1 / 32_768]);
});
