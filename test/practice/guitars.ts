import {constantFrom, nat, tuple} from 'fast-check';
import {rngFrom} from '../../source/numeric/rng.ts';
import type {Guitar} from '../../source/practice/guitar.ts';
import {drawGuitar, ensembles, type GuitarOptions, starts} from '../../source/practice/index.ts';
import {clawBalanced, pitchesHeld} from '../../source/practice/poise.ts';

const inchM = 0.0254;

/** Any guitar of the ensembles as it may come in; same arguments, same guitar. */
export function guitarOf(seed: number, ensemble: number, options: GuitarOptions): Guitar {
	return drawGuitar(rngFrom(seed, ensemble), ensembles[ensemble]!.spec, options);
}

export const anySeed = nat({max: 100_000});
export const anyEnsemble = constantFrom(...ensembles.keys());
export const anyStart = constantFrom(...starts);
/** [seed, ensemble] */
export const anyDraw = tuple(anySeed, anyEnsemble);

/** No friction, nothing left to give, perfect hands and tuner. */
export const ideal = {frictionScale: 0, stretchScale: 0, tunerNoiseCents: 0, handErrorCents: 0} as const;

/**
 * The reference instrument of our own derivations: 9-42 set at 648 mm, arms
 * 12 and 40 mm, three springs of 2.0 N/mm without initial tension, nothing
 * behind the nut (as if locked, but pegs work), no friction, plate level and all strings at pitch. Wire: E 203.4 GPa; the
 * masses per length given there are at pitch, so they are turned into
 * unstretched ones here (mass is conserved); cores of the wound strings are
 * assumptions. Set `stiff` for strings that resist bending.
 */
export function referenceGuitar({stiff = false} = {}): Guitar {
	const drawn = guitarOf(1, 0, {start: 'level-and-in-tune', ...ideal});
	const coresIn = [0.009, 0.011, 0.016, 0.0135, 0.0145, 0.016];
	const atPitchKgPerM = [3.2219e-4, 4.813e-4, 1.0183e-3, 1.9599e-3, 3.3967e-3, 5.7771e-3];
	const strain = [0.00704, 0.00395, 0.00249, 0.00378, 0.00319, 0.0025];
	const guitar: Guitar = {
		...drawn,
		angleRad: 0,
		body: {
			...drawn.body,
			scaleLineM: 0,
			hookXM: 0,
			hookYM: -0.04,
			clawXM: -0.1,
			clawYM: -0.04,
			endStiffness: stiff ? 1 : 0,
		},
		springs: [0, 1, 2].map(() => ({rateNPerM: 2000, initialN: 0, closedM: 0.08, acrossM: 0})),
		strings: drawn.strings.map((string, index) => {
			const coreM = coresIn[index]! * inchM;
			return {
				...string,
				saddleM: 0,
				fineTunerM: 0,
				seat: {
					...string.seat,
					heightM: 0.012,
					nutXM: -0.648,
					nutYM: 0.012,
					behindPathM: 1e-9,
					actionM: 1.6e-3,
					nutHeightM: 0.35e-3,
				},
				wire: {
					...string.wire,
					breakN: 1000,
					massKgPerM: atPitchKgPerM[index]! * (1 + strain[index]!),
					stretchStiffnessN: (203.4e9 * Math.PI * coreM ** 2) / 4,
					bendStiffnessNM2: stiff ? (203.4e9 * Math.PI * coreM ** 4) / 64 : 0,
				},
			};
		}),
	};
	return clawBalanced(pitchesHeld(guitar, []));
}

/** Degrees for people. */
export const degrees = (angleRad: number): number => (angleRad * 180) / Math.PI;
