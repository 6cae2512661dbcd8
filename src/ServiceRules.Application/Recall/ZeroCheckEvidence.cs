using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Recall;

/// <summary>
/// What a record's own zero check says of an error that was found later. It speaks only where nobody states since
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

        if (gauge.ZeroCheck is not { } check)
        {
            return ErrorOnTheDay.NotKnown;
        }

        var step = gauge.Resolution?.Value.Abs ?? (check.Error.RoundingHalfWidth * 2);
        var near = Length.Max(step, found.Uncertainty?.Value.Abs ?? Length.Zero);
        var isRight = check.Error.Value.Abs <= step;
        var isWrong = (check.Error.Value - found.Error.Value).Abs <= near;
        return (isRight, isWrong) switch
        {
            (true, false) => ErrorOnTheDay.Absent,
            (false, true) => ErrorOnTheDay.InFull,
            _ => ErrorOnTheDay.NotKnown,
        };
    }
}
