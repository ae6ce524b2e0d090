import type {Bench, StringRow} from '../../session/bench.ts';
import {formatCents, formatCentsSpread, formatCentsWords} from '../../units/cents.ts';
import {formatGauge, formatLength, formatSixtyFourths, formatTravel, gaugeThouFromMm} from '../../units/length.ts';
import {formatCount, formatPercent} from '../../units/quantities.ts';
import {errorOf, planned, travelMmOf, wishOf} from './status.ts';
import {words} from './words.ts';

/** `1.24 mm back`; on a rule in inches with its marks, `0.049 in (3/64 in) back`. */
export function travelShown(travelMm: number, {sheet}: Pick<Bench, 'sheet'>): string {
	const shown = formatTravel(travelMm, sheet.units);
	if (sheet.units.length === 'mm') return shown;
	return shown.replace(/ in /, ` in (${formatSixtyFourths(Math.abs(travelMm))}) `);
}

/** Before anything is slackened: how far and which way each is to go, and what is out of the ordinary about it. */
export function planLines(rows: readonly StringRow[], bench: Bench): readonly string[] {
	const moves = rows.map(row => words.planned(row.string, travelShown(travelMmOf(row), bench)));
	return [
		words.plan(moves.join(', ')),
		...rows.flatMap(row => [...suspicionLine(row), ...reachLines(row, bench), ...misledLine(row, bench)]),
	];
}

/** Nothing to say when the saddle can go there with its screw where it is. */
export function reachLines(row: StringRow, bench: Bench): readonly string[] {
	const {string, saddle} = row;
	if (planned(row).kind === 'out-of-travel') return [words.endOfTravel(string), ...compromiseLines(row, bench)];
	const reach = saddle?.reach;
	if (reach?.kind !== 'reachable') return [words.travelUnknown(string)];
	if (reach.changesHole === undefined) return [words.holeUnknown[reach.hole](string)];
	return reach.changesHole ? [words.otherHole[reach.hole](string)] : [];
}

/** Nearer than this to its end a saddle stands there, mm. */
const noTravelMm = 0.2;

/** Another gauge is only spoken of when it leaves less than this share. */
const worthAChange = 0.75;

/** What the end of the travel leaves, and what would take that away. */
function compromiseLines({string, saddle}: StringRow, bench: Bench): readonly string[] {
	if (!saddle) return [];
	const {units} = bench.sheet;
	const {out} = words;
	const {reach, travelMm, expectedCents, compromise} = saddle;
	const left = formatCentsSpread(expectedCents);
	if (reach.kind !== 'out') return [];
	const wanted = travelShown(travelMm.mean, bench);
	const lines = [
		Math.abs(reach.travelMm) < noTravelMm || reach.travelMm * travelMm.mean < 0
			? out.atEnd[reach.end](string, wanted, formatCentsSpread(saddle.errorCents))
			: out.short[reach.end](string, wanted, travelShown(reach.travelMm, bench), left),
	];
	if (!compromise) return lines;
	const {actionMm, gauges} = compromise;
	const ways = [
		...(actionMm === undefined
			? []
			: [out.action(formatLength(Math.abs(actionMm), units), actionMm > 0 ? words.higher : words.lower)]),
		...gauges
			.filter(gauge => Math.abs(gauge.leftCents) < worthAChange * Math.abs(compromise.leftCents))
			.map(({gaugeM, leftCents}) =>
				out.gauge(
					formatGauge(gaugeThouFromMm(gaugeM * 1000), bench.strings[string - 1]!.wound, {length: 'in'}),
					formatCents(leftCents),
				),
			),
	];
	return [...lines, ways.length > 0 ? out.else(ways.join('; ')) : out.nothingElse];
}

/** What a tuner would have made of the same two plucks, where that differs by more than the tolerance can bear. */
export function misledLine({saddle}: StringRow, {sheet}: Bench): readonly string[] {
	const {cents, tunerCents, astrayMm} = saddle?.ears ?? {};
	if (cents === undefined || tunerCents === undefined || astrayMm === undefined) return [];
	if (Math.abs(tunerCents - cents) <= sheet.frettedToleranceCents) return [];
	return [words.misled(formatCents(tunerCents), formatCents(cents), travelShown(astrayMm, {sheet}))];
}

/** What was read here, averaged, and what it comes to. */
export function readLines(row: StringRow): readonly string[] {
	const {plucks} = row.saddle ?? {};
	const error = errorOf(row);
	if (!plucks || plucks.harmonic.meanCents === undefined || plucks.fretted.meanCents === undefined || !error) return [];
	const [harmonic, fretted] = [plucks.harmonic, plucks.fretted].map(({count, meanCents = 0, sdCents}) =>
		words.read.average(
			sdCents === undefined ? formatCents(meanCents) : formatCentsSpread({mean: meanCents, sd: sdCents}),
			formatCount(count, 'pluck'),
		),
	) as [string, string];
	return [words.read.line(harmonic, fretted, formatCentsSpread(error))];
}

/** What the move should bring, with its chance. */
export function expectedLine({saddle}: StringRow): readonly string[] {
	if (!saddle) return [];
	return [words.expected(formatCentsSpread(saddle.expectedCents), formatPercent(saddle.chanceWithin.after))];
}

/** Another story than that all went as expected, named even when the plan goes on. */
export function suspicionLine({saddle}: StringRow): readonly string[] {
	const suspicion = saddle?.suspicion;
	return suspicion ? [words.suspicion(words.causes[suspicion.cause], formatPercent(suspicion.chance))] : [];
}

/** `2.0 cents sharp of the harmonic`, or of what is wanted over it. */
export function errorWords(row: StringRow, bench: Bench): string {
	const error = formatCentsWords(errorOf(row)?.mean ?? 0);
	const wish = wishOf(row, bench);
	if (!/sharp|flat/.test(error)) return wish === 0 ? words.against.inTune : words.against.atWish(formatCents(wish));
	return wish === 0 ? words.against.harmonic(error) : words.against.wish(error, formatCents(wish));
}

/** How one string stands at the end, and why it is left so. */
export function verdictLine(row: StringRow, bench: Bench, isAccepted: boolean): readonly string[] {
	const {string, saddle} = row;
	const error = errorOf(row);
	if (!error || !saddle) return [];
	const shown = formatCentsSpread(error);
	const step = planned(row);
	const tell = formatCents(saddle.resolvableCents).replace('+', '±');
	const said = () => {
		if (step.kind === 'out-of-travel') return words.verdict.outOfTravel(string, shown);
		if (isAccepted) return words.verdict.accepted(string, shown);
		if (step.kind === 'leave' && step.why === 'below-what-can-be-told')
			return words.verdict.untold(string, shown, tell);
		return Math.abs(error.mean) <= saddle.resolvableCents
			? words.verdict.withinBoth(string, shown, tell)
			: words.verdict.within(string, shown);
	};
	const ends = step.kind === 'out-of-travel' ? compromiseLines(row, bench) : [];
	return [said(), ...ends, ...suspicionLine(row), ...misledLine(row, bench)];
}
