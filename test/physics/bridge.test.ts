import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {holdingAngleRad, wireForFrequencyM, wireForTensionM} from '../../source/physics/bridge-holding.ts';
import {
	type Bridge,
	frequencyAt,
	momentAndSlope,
	restAngleRad,
	stiffnessAt,
	tensionAt,
	travelAt,
} from '../../source/physics/bridge.ts';

/** Invented: plain strings of one gauge each, at pitch with the plate level and at rest. */
function bridgeOf(
	strings: readonly {readonly hz: number; readonly diameterM: number}[],
	{rate = 9.6, armM = 0.012, sharing = 1, playM = 0} = {},
): Bridge {
	const lengthM = 0.648;
	const fill = (value: number) => strings.map(() => value);
	const area = (diameterM: number) => (Math.PI / 4) * diameterM ** 2;
	const bridge: Bridge = {
		axialStiffnessN: strings.map(({diameterM}) => 203.4e9 * area(diameterM)),
		massPerLengthKgPerM: strings.map(({diameterM}) => 7850 * area(diameterM)),
		speakingLengthM: fill(lengthM),
		wireM: fill(lengthM),
		armM: fill(armM),
		slidesBelowM: fill(-playM),
		slidesAboveM: fill(playM),
		sharing: fill(sharing),
		setbackM: 0,
		springRateNmPerRad: rate,
		springMomentNm: 0,
		backStopRad: 0.2,
		frontStopRad: -0.5,
	};
	for (const [index, {hz}] of strings.entries()) bridge.wireM[index] = wireForFrequencyM(bridge, index, hz, 0);
	bridge.springMomentNm = momentAndSlope(bridge, 0)[0];
	return bridge;
}

const plain = [
	{hz: 329.628, diameterM: 0.2286e-3},
	{hz: 246.942, diameterM: 0.2794e-3},
	{hz: 195.998, diameterM: 0.4064e-3},
] as const;

const cents = (one: number, other: number) => 1200 * Math.log2(one / other);

describe('one string over a moving contact', () => {
	// Own derivation from exact stretch and mass: E 203.4 GPa, 7850 kg/m³, 648 mm, locked; worked out apart from this code.
	test.each([
		[-0.5, -322.29, -188.97, -101.27],
		[-0.1, -55.53, -34.61, -19.32],
		[0.1, 52.16, 33.27, 18.89],
		[0.5, 234, 154.8, 90.52],
		[1, 417.76, 285.88, 172.34],
	])('%s mm of travel', (travelMm, third, second, first) => {
		const bridge = bridgeOf(plain);
		for (const [index, expected] of [first, second, third].entries()) {
			const moved = frequencyAt(bridge, index, travelMm / 1000)!;
			// Half a hundredth: the printed digits.
			expect(Math.abs(cents(moved, plain[index]!.hz) - expected)).toBeLessThan(0.006);
		}
	});

	test('gauge does not matter to a plain string', () => {
		const [thin, thick] = [0.2286e-3, 0.2794e-3].map(diameterM => bridgeOf([{hz: 329.628, diameterM}]));
		expect(frequencyAt(thin!, 0, 5e-4)).toBeCloseTo(frequencyAt(thick!, 0, 5e-4)!, 9);
	});
});

describe('strings, springs and knife edge together', () => {
	test('a small change of one string moves all as Sherman and Morrison’s formula for k − (h²/K) k kᵀ has it', () => {
		const bridge = bridgeOf(plain);
		const h = bridge.armM[0]!;
		const k = plain.map((_, index) => stiffnessAt(bridge, index, 0));
		const total = bridge.springRateNmPerRad + h * h * k.reduce((sum, each) => sum + each, 0);
		const u = 1e-7;
		const tighter: Bridge = {...bridge, wireM: bridge.wireM.map((wire, index) => (index === 1 ? wire - u : wire))};
		const angle = restAngleRad(tighter);
		for (const index of plain.keys()) {
			const change = tensionAt(tighter, index, travelAt(tighter, index, angle)) - tensionAt(bridge, index, 0);
			const expected = (index === 1 ? k[1]! * u : 0) - (k[index]! * (h * h * (k[1]! * u))) / total;
			// Stretch of the wire let in is second order in strain, some thousandths.
			expect(Math.abs(change - expected)).toBeLessThan(0.02 * Math.abs(k[1]! * u));
		}
	});

	test('held at its pitches a bridge rests where its springs put it, whatever the strings were before', () => {
		fc.assert(
			fc.property(fc.array(fc.double({min: -3e-3, max: 1e-3, noNaN: true}), {minLength: 3, maxLength: 3}), changes => {
				const bridge = bridgeOf(plain);
				const off: Bridge = {...bridge, wireM: bridge.wireM.map((wire, index) => wire - changes[index]!)};
				const hold = plain.map(({hz}) => hz);
				expect(holdingAngleRad(off, hold)).toBeCloseTo(0, 8);
			}),
		);
	});

	test('tension falls less once wire slides over the nut', () => {
		const held = bridgeOf(plain);
		const sliding = bridgeOf(plain, {sharing: 0.85, playM: 5e-5});
		expect(tensionAt(sliding, 0, 4e-5)).toBeCloseTo(tensionAt(held, 0, 4e-5), 9);
		const fall = (bridge: Bridge) => tensionAt(bridge, 0, 0) - tensionAt(bridge, 0, -5e-4);
		expect(fall(sliding) / fall(held)).toBeCloseTo(0.1 + 0.9 * 0.85, 6);
	});

	test('a support holds it, and a stop', () => {
		const bridge = bridgeOf(plain);
		const strong: Bridge = {...bridge, springMomentNm: bridge.springMomentNm + 100};
		expect(restAngleRad(strong)).toBe(strong.backStopRad);
		expect(restAngleRad({...strong, blockedAtRad: 0.01})).toBe(0.01);
	});

	test('the wire for a tension gives that tension', () => {
		const bridge = bridgeOf(plain);
		const wireM = wireForTensionM(bridge, 2, 70, 1e-4);
		expect(tensionAt({...bridge, wireM: [0, 0, wireM]}, 2, 1e-4)).toBeCloseTo(70, 9);
	});
});
