using ServiceRules.Domain.Measurement;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Doubt about a value that its gauge is not to blame for: a finer gauge would not help.</summary>
/// <param name="ByGauge">What the gauge alone tells.</param>
/// <param name="Told">What the doubt comes from, in words.</param>
/// <param name="Again">Why to read again, in words.</param>
internal sealed record GrownDoubt(MeasuredValue ByGauge, string Told, string Again)
{
    public static GrownDoubt? BySteps(MeasuredValue? asRead) =>
        asRead is null
            ? null
            : new(
                asRead,
                "what was turned since the reading leaves too much doubt, not the gauge",
                "turned since the reading: the same gauge will do"
            );

    /// <summary>Doubt of what a line tells: of steps since the readings, or of readings that lie on no straight line.</summary>
    public static GrownDoubt? OfLine(KnownLine line, Func<KnownLine, Knowledge> value) =>
        line.AsReadAndEven is not { } plain || value(plain) is not MeasuredValue byGauge ? null
        : line.Fit.IsUneven
            ? new(
                byGauge,
                "the readings do not lie on a straight line, which leaves too much doubt, not the gauge",
                line.HasReadBothEnds
                    ? "the readings do not lie on a straight line: read again at every station; the same gauge will do"
                    : "the readings do not lie on a straight line: read again, and within 5 mm of the ends; the same gauge will do"
            )
        : BySteps(byGauge);
}
