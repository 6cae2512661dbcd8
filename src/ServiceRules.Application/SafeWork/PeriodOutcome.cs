using System.Diagnostics.CodeAnalysis;

namespace ServiceRules.Application.SafeWork;

/// <summary>A period, or why there is none.</summary>
/// <param name="Period">The period.</param>
/// <param name="Fault">What is wrong, in one sentence.</param>
public sealed record PeriodOutcome(SafeWorkPeriod? Period, string? Fault)
{
    public bool TryGet([NotNullWhen(true)] out SafeWorkPeriod? period, [NotNullWhen(false)] out string? fault)
    {
        (period, fault) = (Period, Fault);
        return period is not null;
    }

    internal static PeriodOutcome Of(SafeWorkPeriod period) => new(period, null);

    internal static PeriodOutcome Refused(string fault) => new(null, fault);
}
