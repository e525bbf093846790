// The order of a flow where it decides something: what is urgent is said before anything else is asked, and nothing stands behind the
// end. Elsewhere the order costs texts and hides nothing. Next: src/dialog/next-step.ts.

import type { Flow, Step } from '../../dialog/flow.ts';
import { complain, type Report, type SourceFile } from '../yaml-source.ts';
import { stepsIn } from './step-places.ts';

/** Errors, at the step. */
export function checkOrder({ id, steps }: Flow, sources: readonly SourceFile[], report: Report): void {
  const tell = (step: Step | undefined, code: string, what: string, why: string, fix: string): void => {
    const place = stepsIn(sources, id)(step?.id ?? '');
    report(complain(place, place.range, `flow/${code}`, what, why, fix));
  };
  const isUrgent = (step: Step | undefined): boolean => step?.kind === 'result' && step.of === 'urgent';
  if (!isUrgent(steps[0])) {
    const what = `"${id}" does not begin with the urgent result.`;
    const why = 'A baby who must go now would be asked about first.';
    tell(
      steps.find(isUrgent),
      'urgent-not-first',
      what,
      why,
      'Begin with "- step: urgent", "only-if: urgency is urgent", "result: urgent".',
    );
  }
  const end = steps.findIndex((step) => step.kind === 'result' && step.of === 'final' && step.onlyIf.length === 0);
  const behind = end === -1 ? undefined : steps[end + 1];
  if (behind === undefined) return;
  const what = `Step "${behind.id}" stands behind the final result.`;
  tell(behind, 'behind-the-end', what, 'It would never be asked: the final result is never answered.', 'Put it before the final result.');
}
