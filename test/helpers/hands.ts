import type {Rng} from '../../source/numeric/rng.ts';
import {
	centreFineTuners,
	changeSprings,
	clampNut,
	fitString,
	type Guitar,
	measureTail,
	moveArm,
	moveSaddle,
	openNut,
	placeSupport,
	pluck,
	removeString,
	removeSupport,
	slacken,
	stretchString,
	turnClaw,
	turnTo,
} from '../../source/practice/index.ts';
import type {Deed} from '../../source/session/facts.ts';
import type {PracticeMove} from '../../source/stages/stage.ts';

/** A guitar after hands did a move, and what is to be typed or stored because of it. */
export interface Handled {
	readonly guitar: Guitar;
	/** What the tuner or the ruler showed, as a person types it. */
	readonly typed?: string;
	readonly deeds?: readonly Deed[];
}

/** A scripted person: does what the task asks on a simulated guitar and says what was shown. */
export function handle(rng: Rng, guitar: Guitar, move: PracticeMove): Handled {
	switch (move.kind) {
		case 'pluck': {
			const {how, fret = 12} = move;
			const sounding = how === 'fretted' ? ({how, fret} as const) : ({how} as const);
			const plucked = pluck(rng, guitar, move.string - 1, sounding);
			return {guitar: plucked.guitar, typed: plucked.cents === undefined ? 'slack' : signed(plucked.cents)};
		}
		case 'turn': {
			const turned = turnTo(rng, guitar, move.string - 1, move.toCents, move.by);
			return {guitar: turned.guitar, typed: turned.shown === undefined ? 'slack' : signed(turned.shown)};
		}
		case 'measure-plate':
			return {guitar, typed: `${(1000 * measureTail(rng, guitar)).toFixed(1)} mm`};
		case 'deeds':
			return {guitar: move.deeds.reduce((now, deed) => done(rng, now, deed), guitar), deeds: move.deeds};
	}
}

function done(rng: Rng, guitar: Guitar, deed: Deed): Guitar {
	switch (deed.type) {
		case 'NutOpened':
			return openNut(guitar);
		case 'NutClamped':
			return clampNut(rng, guitar);
		case 'FineTunersCentred':
			return centreFineTuners(guitar);
		case 'SupportPlaced':
			return placeSupport(guitar);
		case 'SupportRemoved':
			return removeSupport(guitar);
		case 'ClawTurned':
			return turnClaw(rng, guitar, deed).guitar;
		case 'SpringsChanged':
			return changeSprings(rng, guitar, deed.springs);
		case 'StringRemoved':
			return removeString(guitar, deed.string - 1);
		case 'StringFitted':
			return fitString(rng, guitar, deed.string - 1);
		case 'StringSlackened':
			return slacken(guitar, deed.string - 1);
		case 'StringStretched':
			return stretchString(guitar, deed.string - 1);
		case 'SaddleMoved':
			return moveSaddle(rng, guitar, deed.string - 1, deed.travelMm / 1000).guitar;
		case 'ArmMoved':
			return moveArm(guitar, deed.motion);
		default:
			return guitar;
	}
}

function signed(cents: number): string {
	return `${cents > 0 ? '+' : ''}${cents}`;
}
