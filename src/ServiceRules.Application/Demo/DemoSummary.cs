using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Demo;

/// <summary>What the rules found in the demo, held against what was put into it.</summary>
public sealed record DemoSummary
{
    public required int Jobs { get; init; }

    public required int Released { get; init; }

    public required int Held { get; init; }

    public required int Stopped { get; init; }

    /// <summary>Every seeded fault, in the order of the jobs.</summary>
    public required ImmutableArray<FaultOutcome> Faults { get; init; }

    /// <summary>Holds and stops that no seeded fault accounts for.</summary>
    public required ImmutableArray<UnexpectedFinding> Unexpected { get; init; }

    /// <summary>Jobs that only look odd.</summary>
    public required ImmutableArray<JudgedDemoJob> LeaveAlone { get; init; }

    /// <summary>Every seeded fault found, and nothing else.</summary>
    public bool IsExact => Unexpected.IsEmpty && Faults.All(fault => fault.IsFound);

    /// <summary>Holds the outcome against the seed.</summary>
    public static DemoSummary Of(IEnumerable<JudgedDemoJob> judged)
    {
        ArgumentNullException.ThrowIfNull(judged);
        var jobs = judged.ToImmutableArray();
        return new()
        {
            Jobs = jobs.Length,
            Released = Count(jobs, Disposition.Release),
            Held = Count(jobs, Disposition.Hold),
            Stopped = Count(jobs, Disposition.Stop),
            Faults = [.. jobs.Where(job => job.Job.Fault is not null).Select(Found)],
            Unexpected = [.. jobs.SelectMany(NotAccountedFor)],
            LeaveAlone = [.. jobs.Where(job => job.Job.LeaveAlone is not null)],
        };
    }

    private static int Count(ImmutableArray<JudgedDemoJob> jobs, Disposition disposition) =>
        jobs.Count(job => job.Assessment.Job.Disposition == disposition);

    private static FaultOutcome Found(JudgedDemoJob judged)
    {
        var fault = judged.Job.Fault!;
        return new(
            judged,
            fault,
            [.. fault.Expected.Where(expected => !Barring(judged).Any(finding => Is(finding, expected)))]
        );
    }

    private static IEnumerable<UnexpectedFinding> NotAccountedFor(JudgedDemoJob judged) =>
        Barring(judged)
            .Where(finding => !(judged.Job.Fault?.Expected ?? []).Any(expected => Is(finding, expected)))
            .Select(finding => new UnexpectedFinding(judged, finding));

    private static IEnumerable<Finding> Barring(JudgedDemoJob judged) =>
        judged.Assessment.Findings.Where(finding => finding.Effect is Effect.Hold or Effect.Stop);

    private static bool Is(Finding finding, ExpectedFinding expected) =>
        string.Equals(finding.Rule, expected.Rule, StringComparison.Ordinal)
        && finding.Subject == expected.Subject;
}
