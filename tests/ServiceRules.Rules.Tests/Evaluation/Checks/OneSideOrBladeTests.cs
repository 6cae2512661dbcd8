using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Checks.NearestTurnTests;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>What is out on one side, or on one blade, is not mended by turning what is where it should be.</summary>
public class OneSideOrBladeTests
{
    private static readonly Check Taught = new Check.ProceduralLimit(MeasuredQuantity.Clearance);

    private static readonly Check Limit = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.StationsAndEnds
    );

    private static string Told(CheckOutcome outcome) => Assert.IsType<Remedy.Act>(outcome.Remedy).What;

    /// <summary>Right known from below alone: no count, and three steps on the left, which is as taught, would touch.</summary>
    [Fact]
    public void Evaluate_OneSideTooWideByNobodyKnowsHowMuch_ClosesThatSideAlone() =>
        Assert.Equal(
            "close only the right side, one step at a time, until the 0.001 in feeler just passes there and the 0.0015 in feeler does "
                + "not; leave the left, which is as taught, as it is; then try both ends again",
            Told(
                OnBench(
                    Taught,
                    [.. Between("left", "0.001 in", "0.0015 in"), Feeler("right", "0.003 in", passes: true)]
                )
            )
        );

    [Fact]
    public void Evaluate_OtherSideNotTried_LeavesItAsItIs() =>
        Assert.StartsWith(
            "close only the left side, one step at a time",
            Told(OnBench(Taught, Feeler("left", "0.003 in", passes: true))),
            StringComparison.Ordinal
        );

    [Fact]
    public void Evaluate_OneSideTooTightTheOtherTooWide_OpensBeforeItCloses()
    {
        var told = Told(
            OnBench(
                Taught,
                Feeler("left", "0.001 in", passes: false),
                Feeler("right", "0.003 in", passes: true)
            )
        );

        Assert.StartsWith(
            "first open the left side, which is too tight, one step at a time",
            told,
            StringComparison.Ordinal
        );
        Assert.Contains("then close the right side, which is too wide", told, StringComparison.Ordinal);
        Assert.DoesNotContain("alternately", told, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_BothSidesTooWide_AreClosedAlternately() =>
        Assert.StartsWith(
            "close one step at a time, both sides alternately, each until the 0.001 in feeler just passes there",
            Told(
                OnBench(
                    Taught,
                    Feeler("left", "0.003 in", passes: true),
                    Feeler("right", "0.003 in", passes: true)
                )
            ),
            StringComparison.Ordinal
        );

    private static IEnumerable<BenchEntry> AsTaughtBut(int blade, params BenchEntry[] entries) =>
        Enumerable
            .Range(1, Bench.Blades)
            .Where(each => each != blade)
            .SelectMany(each =>
                Between("left", "0.001 in", "0.0015 in", each)
                    .Concat(Between("right", "0.001 in", "0.0015 in", each))
            )
            .Concat(entries);

    [Fact]
    public void Evaluate_OneBladeTooWide_IsNamedAndNothingIsTurned()
    {
        var told = Told(
            OnBench(
                Taught,
                [
                    .. AsTaughtBut(
                        4,
                        [
                            .. Between("left", "0.002 in", "0.003 in", 4),
                            .. Between("right", "0.002 in", "0.003 in", 4),
                        ]
                    ),
                ]
            )
        );

        Assert.Equal(
            "blade 4 stands wider than the others at left (25 mm) and right (485 mm): no adjuster moves one blade alone, and closing the "
                + "unit for that would drive the others towards the bedknife; put blade 4 right: straighten, or grind the reel; then read "
                + "every blade again",
            told
        );
    }

    /// <summary>0.0015 in passes under one blade, and nothing was tried that does not: how wide nobody knows, which blade is known.</summary>
    [Fact]
    public void Evaluate_OneBladeTooWideByNobodyKnowsHowMuch_IsNamed() =>
        Assert.StartsWith(
            "blade 4 stands wider than the others at left (25 mm)",
            Told(
                OnBench(
                    Taught,
                    [
                        .. AsTaughtBut(
                            4,
                            [
                                Feeler("left", "0.0015 in", passes: true) with
                                {
                                    Blade = 4,
                                },
                                .. Between("right", "0.001 in", "0.0015 in", 4),
                            ]
                        ),
                    ]
                )
            ),
            StringComparison.Ordinal
        );

    [Fact]
    public void Evaluate_OneBladeTooTight_IsNamedAndNothingIsOpened()
    {
        var told = Told(
            OnBench(
                Taught,
                [
                    .. AsTaughtBut(
                        4,
                        [
                            Feeler("left", "0.001 in", passes: false) with
                            {
                                Blade = 4,
                            },
                            .. Between("right", "0.001 in", "0.0015 in", 4),
                        ]
                    ),
                ]
            )
        );

        Assert.StartsWith(
            "blade 4 stands tighter than the others at left (25 mm)",
            told,
            StringComparison.Ordinal
        );
    }

    /// <summary>Every blade's own line is straight: no bow, and one blade that stands 0.050 mm above the others.</summary>
    [Theory]
    [InlineData("0.070 mm")]
    [InlineData("0.060 mm")]
    public void Evaluate_OneBladeTooWideByLength_IsNoBow(string gap)
    {
        var told = Told(
            OnBench(
                Limit,
                [
                    .. Enumerable
                        .Range(1, Bench.Blades)
                        .SelectMany(blade =>
                            new[] { "left", "right" }.Select(station =>
                                Measured(
                                    MeasuredQuantity.Clearance,
                                    station,
                                    blade == 4 ? gap : "0.020 mm",
                                    "DG-01"
                                ) with
                                {
                                    Blade = blade,
                                }
                            )
                        ),
                ]
            )
        );

        Assert.StartsWith("blade 4 stands wider than the others", told, StringComparison.Ordinal);
        Assert.DoesNotContain("bow", told, StringComparison.Ordinal);
    }

    /// <summary>All blades stand alike, 0.063 mm: the unit is turned, and no blade is blamed.</summary>
    [Fact]
    public void Evaluate_AllBladesTooWideAlike_IsTurned() =>
        Assert.IsType<Remedy.Turn>(
            OnBench(
                Limit,
                [
                    .. Enumerable
                        .Range(1, Bench.Blades)
                        .SelectMany(blade =>
                            new[] { "left", "right" }.Select(station =>
                                Measured(MeasuredQuantity.Clearance, station, "0.063 mm", "DG-01") with
                                {
                                    Blade = blade,
                                }
                            )
                        ),
                ]
            ).Remedy
        );

    [Fact]
    public void Evaluate_BladeOutAndOthersNotRead_AsksForTheOthers() =>
        Assert.Contains(
            "not every blade was read",
            Assert
                .IsType<Remedy.ReadAgain>(
                    OnBench(
                        Limit,
                        Measured(MeasuredQuantity.Clearance, "left", "0.090 mm", "DG-01") with
                        {
                            Blade = 4,
                        },
                        Measured(MeasuredQuantity.Clearance, "right", "0.090 mm", "DG-01") with
                        {
                            Blade = 4,
                        },
                        Measured(MeasuredQuantity.Clearance, "left", "0.020 mm", "DG-01") with
                        {
                            Blade = 5,
                        },
                        Measured(MeasuredQuantity.Clearance, "right", "0.020 mm", "DG-01") with
                        {
                            Blade = 5,
                        }
                    ).Remedy
                )
                .Why,
            StringComparison.Ordinal
        );

    /// <summary>
    /// As taught at both stations, 0.120 mm at 100 mm: by the parabola both ends lie below nothing. What comes nearest of what is sure
    /// not to touch opens the unit and betters no place that was read, and says for what.
    /// </summary>
    [Fact]
    public void Evaluate_NearestThatBettersNothingRead_SaysThatItOpensForTheEnds()
    {
        var cannot = Assert.IsType<Remedy.CannotBeTurnedIn>(
            OnBench(
                Limit,
                [
                    .. Between("left", "0.001 in", "0.0015 in"),
                    .. Between("right", "0.001 in", "0.0015 in"),
                    Measured(MeasuredQuantity.Clearance, "100 mm", "0.120 mm", "DG-01"),
                ]
            ).Remedy
        );

        Assert.True(cannot.Nearest!.LeftSteps > 0);
        Assert.Contains("may touch as it stands", cannot.WouldHelp, StringComparison.Ordinal);
    }

    /// <summary>Bowed, and the left end may touch; but what comes nearest brings all that was read nearer, and needs no such reason.</summary>
    [Fact]
    public void Evaluate_NearestThatBettersWhatWasRead_NamesNoEndAsTheReason()
    {
        var cannot = Assert.IsType<Remedy.CannotBeTurnedIn>(
            OnBench(
                Limit,
                Measured(MeasuredQuantity.Clearance, "left", "0.002 mm", "DG-01"),
                Measured(MeasuredQuantity.Clearance, "middle", "0.180 mm", "DG-01"),
                Measured(MeasuredQuantity.Clearance, "right", "0.150 mm", "DG-01")
            ).Remedy
        );

        Assert.True(cannot.Nearest is { LeftSteps: > 0, RightSteps: < 0 });
        Assert.DoesNotContain("may touch as it stands", cannot.WouldHelp, StringComparison.Ordinal);
    }
}
