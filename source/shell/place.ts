import type {Bench} from '../session/bench.ts';
import type {Stage} from '../stages/stage.ts';

/** The stage that is open: the reopened one, else the first needed one not passed; none when all are. */
export function stageOf(bench: Bench, stages: readonly Stage[]): Stage | undefined {
	const reopened = stages.find(({id}) => id === bench.reopenedStage);
	return reopened ?? stages.find(stage => stage.isNeeded(bench) && !bench.passedStages.includes(stage.id));
}

export interface Step {
	readonly stage: Stage;
	readonly state: 'passed' | 'here' | 'ahead';
}

/** The way through this set-up: needed stages, and which lie behind. */
export function wayOf(bench: Bench, stages: readonly Stage[]): readonly Step[] {
	const here = stageOf(bench, stages);
	return stages
		.filter(stage => stage === here || stage.isNeeded(bench))
		.map(stage => ({
			stage,
			state: stage === here ? 'here' : bench.passedStages.includes(stage.id) ? 'passed' : 'ahead',
		}));
}

/** The stage before this one on the way, to go back to; from the end, the last one. */
export function stageBefore(bench: Bench, stages: readonly Stage[]): Stage | undefined {
	const way = wayOf(bench, stages);
	const here = way.findIndex(({state}) => state === 'here');
	return way[here < 0 ? way.length - 1 : here - 1]?.stage;
}

/** How much of the whole way is done, 0 to 1; every stage counts alike. */
export function shareDone(bench: Bench, stages: readonly Stage[], progressHere: number): number {
	const way = wayOf(bench, stages);
	const passed = way.filter(({state}) => state === 'passed').length;
	const here = way.some(({state}) => state === 'here') ? Math.min(1, Math.max(0, progressHere)) : 0;
	return way.length === 0 ? 1 : (passed + here) / way.length;
}
