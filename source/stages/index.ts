import {balance} from './balance/index.ts';
import {finalCheck} from './final-check/index.ts';
import {intake} from './intake/index.ts';
import {intonate} from './intonate/index.ts';
import {recheck} from './re-check/index.ts';
import {relock} from './re-lock/index.ts';
import {setUpSheet} from './set-up-sheet/index.ts';
import type {Stage} from './stage.ts';
import {tune} from './tune/index.ts';
import {unlock} from './unlock/index.ts';

/** The way through a set-up, in the order it is walked: the one list of stages. */
export const stages = [
	intake,
	unlock,
	tune,
	balance,
	intonate,
	relock,
	finalCheck,
	setUpSheet,
	recheck,
] as const satisfies readonly Stage[];

export type StageId = (typeof stages)[number]['id'];
