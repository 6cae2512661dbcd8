using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Recall;

/// <summary>
/// What a record's own zero checks, before the job and after it, say of an error that was found later. They speak only where nobody states since
/// when the error was there: a check on a setting piece sees a gauge that was mis-set, and neither a wrong piece nor a
/// bent bar.
/// </summary>
internal static class ZeroCheckEvidence
{
    public static ErrorOnTheDay Of(Instrument gauge, FoundError found)
    {
        if (found.From is not null)
        {
            return ErrorOnTheDay.InFull;
        }

        ImmutableArray<ZeroCheck> checks =
        [
            .. new[] { gauge.ZeroCheck, gauge.ZeroCheckAfter }.OfType<ZeroCheck>(),
        ];
        return checks.IsEmpty ? ErrorOnTheDay.NotKnown
            : checks.All(check => IsRight(check, gauge) && !IsWrong(check, gauge, found))
                ? ErrorOnTheDay.Absent
            : checks.All(check => IsWrong(check, gauge, found) && !IsRight(check, gauge))
                ? ErrorOnTheDay.InFull
            : ErrorOnTheDay.NotKnown;
    }

    private static bool IsRight(ZeroCheck check, Instrument gauge) =>
        check.Error.Value.Abs <= StepOf(check, gauge);

    private static bool IsWrong(ZeroCheck check, Instrument gauge, FoundError found) =>
        (check.Error.Value - found.Error.Value).Abs
        <= Length.Max(StepOf(check, gauge), found.Uncertainty?.Value.Abs ?? Length.Zero);

    private static Length StepOf(ZeroCheck check, Instrument gauge) => GaugeStep.Of(gauge, check.Error);
}
