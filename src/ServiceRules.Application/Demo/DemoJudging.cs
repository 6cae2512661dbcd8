using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Packs;

namespace ServiceRules.Application.Demo;

/// <summary>Judges the jobs of the demo knowing one another, each by the rules that are in force when its turn comes.</summary>
/// <param name="rules">What is in force.</param>
/// <param name="jobs">All of them.</param>
public sealed class DemoJudging(ActiveRules rules, ImmutableArray<DemoJob> jobs)
{
    private JudgingRules? known;
    private AssessRecord? together;

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
