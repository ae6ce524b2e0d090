import {accountsOf, isBareUnseen, joined, mostAccounts, takenApart} from './accounts.ts';
import type {Belief} from './belief.ts';
import {armMoved, clawTurned, letOff, nutChanged, springsChanged, supported, turned} from './deeds.ts';
import {heardSdCents} from './hands.ts';
import type {Happening} from './happening.ts';
import {adrift, heard, logLikelihoodOf, measuredQuantity} from './heard.ts';
import {moved} from './moving.ts';
import {noise} from './priors.ts';
import {linearisedTail} from './reading-model.ts';
import {logLikelihoodOfStretch, stretchMeasured} from './spring-stretch.ts';
import {pulled, reseatingNewness, touched, withAddedNoise, withStatus} from './settling.ts';

/** The belief after one happening. Order matters; nothing is changed in place. */
export function learn(belief: Belief, happening: Happening): Belief {
	const after = belief.others ? learnedByAll(belief, happening) : learnedByRivals(belief, happening);
	return letsOff.has(happening.kind) && isBareUnseen(after) ? takenApart(after) : after;
}

/** What may leave a guitar without a string that sounds. */
const letsOff: ReadonlySet<Happening['kind']> = new Set(['slack', 'off', 'fitted']);

/** Every account learns by itself, and counts for more the better it foretold. */
function learnedByAll(belief: Belief, happening: Happening): Belief {
	const lessons = accountsOf(belief).map(({belief: each, weight}) => ({...learned(each, happening), weight}));
	const most = Math.max(...lessons.map(({logLikelihood}) => logLikelihood));
	return joined(
		lessons.map(({belief: each, logLikelihood, weight}) => ({
			belief: each,
			weight: weight * Math.exp(logLikelihood - most),
		})),
		happening.kind === 'pitch' ? mostAccounts : undefined,
	);
}

function learnedByRivals(belief: Belief, happening: Happening): Belief {
	const {rival, ...plain} = happening.kind === 'support-in' && happening.tailM !== undefined ? afloat(belief) : belief;
	const after = learned(plain, happening);
	if (!rival) return after.belief;
	const other = learned(rival.belief, happening);
	const lead = rival.lead + after.logLikelihood - other.logLikelihood;
	if (lead > settledLead) return after.belief;
	if (lead < -settledLead) return other.belief;
	return lead >= 0
		? {...after.belief, rival: {belief: other.belief, lead}}
		: {...other.belief, rival: {belief: after.belief, lead: -lead}};
}

/** However it came in, a plate brought to a height by hand is known by that height: its two accounts are one from here on. */
function afloat(belief: Belief): Belief {
	const {rival, ...plain} = belief;
	return rival && plain.isFromStop ? rival.belief : plain;
}

/** ln of the odds at which one account of how the plate came in is dropped for good. */
const settledLead = 12;

interface Lesson {
	readonly belief: Belief;
	/** Of the reading, if there was one; constants common to all accounts left out. */
	readonly logLikelihood: number;
}

function learned(belief: Belief, happening: Happening): Lesson {
	return {belief: step(belief, happening), logLikelihood: likelihoodOf(belief, happening)};
}

function likelihoodOf(belief: Belief, happening: Happening): number {
	if (happening.kind === 'stretch') return logLikelihoodOfStretch(belief, happening.stretchM);
	return happening.kind === 'pitch' || happening.kind === 'tail' ? logLikelihoodOf(belief, happening) : 0;
}

/** What the next reading is expected to be like, for whoever plans. */
function withEars(belief: Belief, {heardSdCents: fitSdCents}: Happening & {readonly kind: 'pitch'}): Belief {
	const {heardCents: _, ...hands} = belief.hands;
	if (fitSdCents === undefined) return {...belief, hands};
	return {...belief, hands: {...hands, heardCents: heardSdCents(fitSdCents)}};
}

function step(belief: Belief, happening: Happening): Belief {
	switch (happening.kind) {
		case 'turned':
			return turned(adrift(belief, happening.index), happening.index, happening.aimCents);
		case 'pitch':
			return heard(withEars(adrift(belief, happening.index), happening), happening);
		case 'tail':
			return measuredQuantity(adrift(belief), happening.tailM, noise.tailM, (by, x) => linearisedTail(by, x));
		case 'stretch':
			return stretchMeasured(belief, happening.stretchM);
		case 'claw':
			return clawTurned(adrift(belief), happening.advanceM, happening.sdM);
		case 'springs':
			return springsChanged(adrift(belief), happening.springs);
		case 'support-in':
			return supported(adrift(belief), happening.tailM);
		case 'support-out': {
			const before = adrift(belief);
			return moved(before, {...before, blocked: false});
		}
		case 'clamped':
		case 'unclamped':
			return nutChanged(adrift(belief), happening.kind === 'clamped' ? 'locked' : 'open');
		case 'slack':
			return letOff(adrift(belief, happening.index), happening.index, {
				on: 'slack',
				newness: Math.max(belief.strings[happening.index]!.newness, reseatingNewness(belief, happening.index)),
			});
		case 'off':
			return letOff(adrift(belief, happening.index), happening.index, {on: 'off'});
		case 'fitted':
			return letOff(adrift(belief, happening.index), happening.index, {on: 'slack', everRead: false, newness: 1});
		case 'pulled':
			return pulled(adrift(belief), happening.index);
		case 'slipped':
			return withAddedNoise(adrift(belief), happening.index, 80);
		case 'saddle':
			return withStatus(belief, happening.index, {
				saddleTravelM: belief.strings[happening.index]!.saddleTravelM + happening.travelM,
			});
		case 'arm':
			return touched(armMoved(adrift(belief)), undefined);
	}
}
