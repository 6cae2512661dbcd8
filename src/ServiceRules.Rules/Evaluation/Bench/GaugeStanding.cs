using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// Who vouches for a gauge: the site's register, and then a certificate. Where gauges of several standings read one place, those of
/// the best alone tell what it is; the others put nothing in, and contradict what they contradict. Otherwise a name that nobody
/// knows would outvote the gauge that the site knows.
/// </summary>
internal static class GaugeStanding
{
    private const int Registered = 2;
    private const int Certified = 1;

    /// <summary>How well the gauge of a reading is vouched for; more is better. Without a register all are registered alike.</summary>
    public static int Of(LoggedReading reading) =>
        (IsRegistered(reading) ? Registered : 0) + (IsCertified(reading.Gauge) ? Certified : 0);

    /// <summary>
    /// A gauge of less standing whose last reading contradicts the last of those that count, unless more gauges agree with it than do
    /// not; none where there is none.
    /// </summary>
    public static GaugeOutvoted? Contradicting(
        List<LoggedReading> all,
        List<LoggedReading> counted,
        Temperature? workshop
    )
    {
        if (all.Count == counted.Count || counted[^1].Gauge is not { } better)
        {
            return null;
        }

        var latest = MeasuredEvidence.Of(counted[^1], workshop);
        var last = all.GroupBy(reading => reading.Gauge).Select(each => each.Last()).ToList();
        var against = last.FindAll(reading =>
            !NormalisedError.Of(MeasuredEvidence.Of(reading, workshop), latest).Agrees
        );
        var lesser = against.Find(reading => reading.Gauge is not null && !counted.Contains(reading));
        return lesser?.Gauge is { } other && against.Count * 2 >= last.Count
            ? new(better.Id, other.Id, IsRegistered(counted[^1]) && !IsRegistered(lesser))
            : null;
    }

    private static bool IsRegistered(LoggedReading reading) =>
        reading.Gauge is { } gauge && gauge.Register is null or { Entry: not null };

    private static bool IsCertified(Instrument? gauge) => gauge is { Calibration: not null };
}
