using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Formats.SafeWork;

namespace ServiceRules.Application.SafeWork;

/// <summary>The jobs of a period, judged: enough to show, to sign and to judge again.</summary>
/// <param name="From">First day.</param>
/// <param name="Until">Last day.</param>
/// <param name="LeftOut">Files that were looked at and are not among the jobs.</param>
/// <param name="Jobs">The jobs, by day and then identity, all judged by the same rules.</param>
/// <param name="Evidence">The documents behind it.</param>
public sealed record SafeWorkPeriod(
    DateOnly From,
    DateOnly Until,
    LeftOut LeftOut,
    ImmutableArray<Assessed> Jobs,
    PeriodFiles Evidence
)
{
    /// <summary>Of each job the account or key that sent its record to a service; null where no sign-in was checked.</summary>
    public ImmutableArray<string?> Senders { get; init; } = [];
}
