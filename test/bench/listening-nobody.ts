import {runInNewContext} from 'node:vm';
import {setFlagsFromString} from 'node:v8';
import {hear} from '../../source/listening/hear.ts';
import {type HeardPluck, startListening} from '../../source/listening/listening.ts';
import {believedHz, type StringPlace, whichString} from '../../source/listening/which-string.ts';
import {frequencyHz} from '../../source/music/pitch.ts';
import {stringNumbers} from '../../source/music/string-number.ts';
import {tuningsFor} from '../../source/music/tunings.ts';
import {type Rng, rngFrom} from '../../source/numeric/rng.ts';
import {between, betweenLog, oneOf} from '../listening/synthesis/draw.ts';
import {render} from '../listening/synthesis/scene.ts';

/** What is heard when nobody plucks. */
export interface NobodyPlays {
	readonly name: string;
	readonly minutes: number;
	/** Onsets told, by verdict, and the settled ones that a string was named for without asking. */
	readonly told: Readonly<Record<HeardPluck['verdict'], number>>;
	readonly taken: number;
	/** Share of one processor core spent listening. */
	readonly coreShare: number;
	/** Heap in use after the second minute and at the end, MB. */
	readonly heapMb: readonly [early: number, late: number];
}

const sampleRateHz = 48_000;
const pieceS = 10;

/** Ten seconds of each kind of sound. */
const kinds: readonly {readonly name: string; readonly piece: (rng: Rng) => Float32Array}[] = [
	{name: 'digital silence', piece: () => new Float32Array(pieceS * sampleRateHz)},
	{
		name: 'noise',
		piece: rng => render(rng, {sampleRateHz, durationS: pieceS, noise: 0.02, tones: []}).samples,
	},
	{
		name: 'mains hum and noise',
		piece: rng =>
			render(rng, {sampleRateHz, durationS: pieceS, noise: 0.002, hum: {hz: 50, level: 0.02}, tones: []}).samples,
	},
	{name: 'knocks and scratches', piece: knocks},
	{name: 'somebody talking', piece: speech},
];

/** One kind of sound after the other, or only those of these names. */
export function* nobodyPlays(minutes: number, only?: readonly string[]): Generator<NobodyPlays> {
	setFlagsFromString('--expose-gc');
	const collect = runInNewContext('gc') as () => void;
	const heapMb = () => {
		collect();
		return process.memoryUsage().heapUsed / 1e6;
	};
	const places = tuningsFor(6)[0]!.notes.map(
		(note, i): StringPlace => ({string: stringNumbers[i]!, targetHz: frequencyHz(note), now: {mean: 0, sd: 10}}),
	);
	const hints = {believedHz: believedHz(places)};
	for (const [k, {name, piece}] of kinds.entries()) {
		if (only && !only.includes(name)) continue;
		const rng = rngFrom(77, k);
		const told = {settled: 0, unsure: 0, moving: 0, 'no-pitch': 0};
		let listening = startListening(sampleRateHz);
		let taken = 0;
		let spentS = 0;
		let early = 0;
		const pieces = Math.round((60 * minutes) / pieceS);
		for (let p = 0; p < pieces; p++) {
			const samples = piece(rng);
			const before = process.cpuUsage();
			for (let from = 0; from < samples.length; from += 1024) {
				const heard = hear(listening, samples.subarray(from, from + 1024), hints);
				listening = heard.listening;
				for (const {verdict, tone} of heard.plucks) {
					told[verdict]++;
					// Some string is always asked for, as at the bench.
					const asked = stringNumbers[p % 6]!;
					if (verdict === 'settled' && tone && whichString(tone, places, {semitonesUp: 0, asked}).kind === 'string')
						taken++;
				}
			}

			const spent = process.cpuUsage(before);
			spentS += (spent.user + spent.system) / 1e6;
			if (p === Math.min(11, pieces - 1)) early = heapMb();
		}

		yield {name, minutes, told, taken, coreShare: spentS / (pieces * pieceS), heapMb: [early, heapMb()]};
	}
}

/** Things put down, the guitar touched: short bursts of noise, some through a resonance that dies within a tenth of a second. */
function knocks(rng: Rng): Float32Array {
	const out = render(rng, {sampleRateHz, durationS: pieceS, noise: 0.001, tones: []}).samples.slice();
	for (let atS = 0.3; atS < pieceS - 1; atS += between(rng, 0.3, 1.5)) {
		const level = betweenLog(rng, 0.02, 0.4);
		const fallS = betweenLog(rng, 0.003, 0.06);
		const ring = oneOf(rng, [0, between(rng, 80, 1500)]);
		const from = Math.round(atS * sampleRateHz);
		for (let i = 0; i < 0.5 * sampleRateHz && from + i < out.length; i++) {
			const t = i / sampleRateHz;
			const carrier = ring > 0 ? Math.sin(2 * Math.PI * ring * t) : rng.normal() / 2;
			out[from + i]! += level * carrier * Math.exp(-t / fallS);
		}
	}

	return out;
}

/** Vowels: pulses of a voice that rises and falls, through three resonances; between them hiss and pauses (shapes by ear, no source). */
function speech(rng: Rng): Float32Array {
	const out = render(rng, {sampleRateHz, durationS: pieceS, noise: 0.001, tones: []}).samples.slice();
	const voiceHz = between(rng, 90, 230);
	for (let atS = 0.2; atS < pieceS - 0.8; ) {
		const lengthS = between(rng, 0.08, 0.6);
		addVowel(rng, out, atS, lengthS, voiceHz);
		const hissS = rng.uniform() < 0.4 ? between(rng, 0.04, 0.12) : 0;
		const from = Math.round((atS + lengthS) * sampleRateHz);
		for (let i = 0; i < hissS * sampleRateHz; i++) out[from + i]! += 0.02 * rng.normal();
		atS += lengthS + hissS + (rng.uniform() < 0.2 ? between(rng, 0.3, 1.2) : between(rng, 0, 0.1));
	}

	return out;
}

function addVowel(rng: Rng, out: Float32Array, atS: number, lengthS: number, voiceHz: number): void {
	const from = Math.round(atS * sampleRateHz);
	const count = Math.min(out.length - from, Math.round(lengthS * sampleRateHz));
	const startHz = voiceHz * 2 ** (between(rng, -4, 4) / 12);
	const endHz = startHz * 2 ** (between(rng, -3, 2) / 12);
	const resonances = [between(rng, 300, 800), between(rng, 900, 2200), between(rng, 2300, 3000)].map(hz => {
		const radius = Math.exp((-Math.PI * 90) / sampleRateHz);
		return {a: 2 * radius * Math.cos((2 * Math.PI * hz) / sampleRateHz), b: -radius * radius, y1: 0, y2: 0};
	});
	let phase = 0;
	for (let i = 0; i < count; i++) {
		const share = i / count;
		phase += (startHz + (endHz - startHz) * share + 0.5 * rng.normal()) / sampleRateHz;
		const isPulse = phase >= 1;
		if (isPulse) phase -= 1;
		const envelope = Math.min(1, share * 8, (1 - share) * 8);
		let sum = 0;
		for (const r of resonances) {
			const y = (isPulse ? 1 : 0) + r.a * r.y1 + r.b * r.y2;
			[r.y2, r.y1] = [r.y1, y];
			sum += y;
		}

		out[from + i]! += 0.02 * envelope * sum;
	}
}
