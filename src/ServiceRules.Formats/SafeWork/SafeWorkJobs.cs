using System.Collections.Immutable;

namespace ServiceRules.Formats.SafeWork;

/// <summary>The jobs of a period with the registers that each is judged with, by day and then identity.</summary>
/// <param name="From">First day of the period.</param>
/// <param name="Until">Last day.</param>
/// <param name="LeftOut">Files that were looked at and are not among them.</param>
/// <param name="Jobs">The jobs.</param>
public sealed record SafeWorkJobs(
    DateOnly From,
    DateOnly Until,
    LeftOut LeftOut,
    ImmutableArray<SafeWorkJob> Jobs
);
