using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Packs;

namespace ServiceRules.Application.Demo;

/// <summary>Judges the jobs of the demo knowing one another, each by the rules that are in force when its turn comes.</summary>
/// <param name="rules">What is in force.</param>
/// <param name="jobs">All of them.</param>
public sealed class DemoJudging(ActiveRules rules, ImmutableArray<DemoJob> jobs)
{
    private JudgingRules? known;
    private AssessRecord? together;

    // Each time, somebody put other rules in force or changed a waiver within the time that judging takes.
    private const int AttemptsMost = 4;

    /// <summary>Judges a job and files it, by what is in force when it is filed.</summary>
    /// <exception cref="LedgerStoreException">The store could not do it.</exception>
    public (Assessed Assessed, FilingOutcome Outcome) File(OpenLedger ledger, DemoJob job)
    {
        for (var attempt = 0; attempt < AttemptsMost; attempt++)
        {
            var assessed = Assess(job);
            if (new FileRecord(ledger).FileWhile(assessed, known!) is { } outcome)
            {
                return (assessed, outcome);
            }
        }

        throw new LedgerStoreException(
            StoreTrouble.Overtaken,
            "other rules came into force, or other waivers, each time that a job of the demo was judged"
        );
    }

    public Assessed Assess(DemoJob job)
    {
        ArgumentNullException.ThrowIfNull(job);
        var now = rules.Now();
        if (together is null || !ReferenceEquals(now, known))
        {
            known = now;
            together = now.Judging.Beside(jobs.Select(one => one.Record));
        }

        return together.Assess(job.Record);
    }
}
