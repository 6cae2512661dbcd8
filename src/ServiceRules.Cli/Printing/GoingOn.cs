using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Cli.Printing;

/// <summary>What may go on now on an open job on which nothing is missing before hands go in, and what may not yet.</summary>
/// <param name="Who">Where hands are.</param>
/// <param name="May">What may go on.</param>
/// <param name="NotYet">What may not begin.</param>
internal sealed record GoingOn(string Who, string May, ImmutableArray<string> NotYet)
{
    /// <summary>Reads it off an assessed job; null: it is signed off, or no duty of safe work is asked of it.</summary>
    /// <param name="job">The job.</param>
    /// <param name="works">Hands-on work as the record shows it.</param>
    public static GoingOn? Of(Assessed job, ImmutableArray<WorkInterval> works)
    {
        var found = SafeWorkFindings.Of(job);
        if (
            job.Assessment.State != RecordState.Open
            || !found.All.Any(one => one.Weighs && one.Finding.Verdict != Verdict.NotApplicable)
        )
        {
            return null;
        }

        var isShown = !found.All.Any(one =>
            one.Weighs && one.IsOpen && (!one.IsToCome || one.Finding.Effect == Effect.Stop) && !IsOfRun(one)
        );
        var isStopped = job.Assessment.Job.Disposition == Disposition.Stop;
        var claim = found.Exemption is null ? "" : " under the claim that takes lockout off the job";
        ImmutableArray<string> notYet = found.All.Any(one => one.Weighs && one.IsToCome)
            ? ["the machine may not be started for use or handed back before what is told below is done"]
            : [];
        var isIn = works.Any(work => work.Stop is null);
        return works.IsEmpty
                ? new(
                    "Before hands go in",
                    isShown
                        ? $"nothing is missing, work may begin{claim}"
                        : "that work may begin is not shown, for what is told below",
                    notYet
                )
            : isIn
                ? new(
                    "Hands are in",
                    isShown
                        ? $"nothing is missing so far, work may go on{claim}"
                        : "that work may go on is not shown, for what is told below"
                            + (isStopped ? ": hands out until it is" : ""),
                    notYet
                )
            : new(
                "Hands are out",
                isShown
                    ? "nothing of the work so far is missing"
                    : "not all of the work so far is shown, for what is told below",
                notYet
            );
    }

    // What is asked of a run that no entry tells of yet holds no work behind a lock.
    private static bool IsOfRun(SafeWorkFinding one) =>
        one is { Finding.Verdict: Verdict.Unproven, Rule.Check: Check.EnergyControl { Of: var duty } }
        && duty
            is EnergyDuty.EnergisedMeasuresFirst
                or EnergyDuty.EnergisedRunLength
                or EnergyDuty.NoHandsWhileEnergised
        && !one.Finding.Evidence.Any(pointer => pointer.StartsWith("/timeline/", StringComparison.Ordinal));
}
