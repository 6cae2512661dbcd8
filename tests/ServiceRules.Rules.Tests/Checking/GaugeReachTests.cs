using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Checking.SoundLibrary;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>Limits on differences against the gauges that the site owns.</summary>
public sealed class GaugeReachTests
{
    private static RuleLibrary Differences(Check check, Func<QuantityLimit, QuantityLimit> limit) =>
        With(Limit with { Check = check }) with
        {
            Sheets = [.. WithClearance(limit).Sheets],
            Instruments =
            [
                Owned("CL-01", "0.1 mm", "0.001 mm", MeasuredQuantity.Clearance),
                Owned("CL-02", "0.01 mm", "0.500 mm", MeasuredQuantity.Clearance),
            ],
        };

    // Stations at 25 and 485 mm of 510.032 mm. Of each reading 0.01/√12 = 0.0028868 mm is left in a difference, whatever the
    // calibration: side to side and parallel √2·510.032/460 of it, 0.0045266, U 0.0090532; across units 0.0028868·√2/√2, U
    // 0.0057736; where units meet √2·√(1.0544² + 0.0544²) of it, U 0.0086.
    public static TheoryData<
        string,
        Check,
        Func<QuantityLimit, string, QuantityLimit>,
        string,
        string
    > DifferenceLimits { get; } =
        new()
        {
            {
                "from side to side",
                new Check.Spread(MeasuredQuantity.Clearance, SpreadAcross.Sides),
                (limit, most) => limit with { SideToSide = Evaluation.Sample.D(most) },
                "0.009 mm",
                "0.0091 mm"
            },
            {
                "across units",
                new Check.Spread(MeasuredQuantity.Clearance, SpreadAcross.Units),
                (limit, most) => limit with { AcrossUnits = Evaluation.Sample.D(most) },
                "0.0057 mm",
                "0.0058 mm"
            },
            {
                "where units meet",
                new Check.Spread(MeasuredQuantity.Clearance, SpreadAcross.AdjacentEnds),
                (limit, most) => limit with { AdjacentEnds = Evaluation.Sample.D(most) },
                "0.0085 mm",
                "0.0090 mm"
            },
            {
                "on parallelism",
                new Check.Parallelism(MeasuredQuantity.Clearance, DatumMethod.MinimumZone),
                (limit, most) => limit with { Parallelism = Evaluation.Sample.D(most) },
                "0.009 mm",
                "0.0091 mm"
            },
        };

    [Theory]
    [MemberData(nameof(DifferenceLimits))]
    public void Of_AGaugeThatShowsTooCoarselyForADifference_TellsIt(
        string what,
        Check check,
        Func<QuantityLimit, string, QuantityLimit> limit,
        string tooFine,
        string provable
    )
    {
        IEnumerable<Diagnostic> Told(string most) =>
            PackCheck
                .Of(Differences(check, each => limit(each, most)))
                .Where(one => one.Code == DiagnosticCode.NoGaugeCanProve);

        var told = Assert.Single(Told(tooFine));
        Assert.Contains($"a limit {what}", told.What, StringComparison.Ordinal);
        Assert.Contains("`CL-02`", told.What, StringComparison.Ordinal);
        Assert.Empty(Told(provable));
    }

    private static Placed<RegisteredInstrument> Owned(
        string id,
        string resolution,
        string uncertainty,
        MeasuredQuantity measures
    ) =>
        new(
            new(
                new(id),
                InstrumentKind.Calliper,
                PrintedLength.Parse(resolution).OrThrow(),
                PrintedLength.Parse(uncertainty).OrThrow(),
                [measures]
            ),
            "site/registers.json",
            "/instruments/0"
        );
}
