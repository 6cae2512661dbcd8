using System.Collections.Immutable;
using FsCheck.Xunit;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using AnySeed = FsCheck.DoNotSize<int>;

namespace ServiceRules.Engine.Tests.Properties;

/// <summary>
/// Void is transitive: what is made void by anything but its own fine adjuster takes along whatever that adjuster
/// disturbs, on sheets that disturb anything by anything.
/// </summary>
[Properties(MaxTest = 1000)]
public class VoidProperties
{
    private static readonly RuleEngine Engine = new();

    // The table of adjusters, written down again from the semantics.
    private static readonly ImmutableArray<(MeasuredQuantity Quantity, AdjusterKind Fine)> Fine =
    [
        (MeasuredQuantity.Clearance, AdjusterKind.Clearance),
        (MeasuredQuantity.HeightOfCut, AdjusterKind.Height),
        (MeasuredQuantity.FrontRoller, AdjusterKind.FrontRoller),
        (MeasuredQuantity.ShieldGap, AdjusterKind.Shield),
        (MeasuredQuantity.BrushGap, AdjusterKind.Brush),
        (MeasuredQuantity.GroomerHeight, AdjusterKind.Groomer),
    ];

    private static readonly ImmutableArray<Rule> Fresh =
    [
        .. Fine.Select(one =>
            Jobs.Rule($"fresh-{(int)one.Quantity}", check: new Check.Freshness(one.Quantity))
        ),
    ];

    [Property]
    public void Assess_WhatIsVoidByAnother_TakesAlongWhatItsAdjusterDisturbs(AnySeed any)
    {
        var random = new Random(any.Item);
        var sheet = AnySheet(random);
        ImmutableArray<BenchEntry> turns =
        [
            .. Enumerable.Range(0, random.Next(1, 4)).Select(_ => Turn(random)),
        ];

        var stale = Void(sheet, [.. Fine.Select(one => Read(one.Quantity)), .. turns]);

        var turned = turns.OfType<Adjustment>().Select(turn => turn.Adjuster).ToHashSet();
        Assert.All(
            Fine.Where(one => stale.Contains(one.Quantity) && !turned.Contains(one.Fine)),
            one =>
                Assert.All(
                    sheet.Of(one.Fine)!.Disturbs.Select(disturbed => disturbed.Quantity),
                    disturbed => Assert.Contains(disturbed, stale)
                )
        );
    }

    /// <summary>What is turned makes void its own quantity, and nothing before it can be saved by turning more.</summary>
    [Property]
    public void Assess_TurnedFurther_NothingVoidBecomesGoodAgain(AnySeed any)
    {
        var random = new Random(any.Item);
        var sheet = AnySheet(random);
        ImmutableArray<BenchEntry> log = [.. Fine.Select(one => Read(one.Quantity)), Turn(random)];
        var more = Turn(random);

        var (before, after) = (Void(sheet, log), Void(sheet, log.Add(more)));

        Assert.Empty(before.Except(after));
        var own = Fine.Where(one => more is Adjustment turn && turn.Adjuster == one.Fine);
        Assert.All(own, one => Assert.Contains(one.Quantity, after));
    }

    private static HashSet<MeasuredQuantity> Void(LimitSheet sheet, ImmutableArray<BenchEntry> log)
    {
        var record = Jobs.Record(Jobs.Unit("a", sheet.Id.Text, [.. log]));
        var assessment = Engine.Assess(
            record,
            Jobs.Context,
            new RuleBook([Jobs.Pack([.. Fresh])], [sheet]),
            Jobs.Digests
        );
        return
        [
            .. Fine.Zip(Fresh)
                .Where(pair =>
                    assessment.Findings.Single(f => f.Rule == pair.Second.Id.Text).Verdict == Verdict.NotMet
                )
                .Select(pair => pair.First.Quantity),
        ];
    }

    private static LimitSheet AnySheet(Random random) =>
        Jobs.Sheet("any") with
        {
            Adjusters =
            [
                .. Fine.Select(one => new Adjuster
                {
                    Kind = one.Fine,
                    Step = Jobs.Print("0.01 mm"),
                    Disturbs =
                    [
                        .. Fine.Where(other => other.Quantity != one.Quantity && random.Next(4) == 0)
                            .Select(other =>
                                random.Next(2) == 0
                                    ? new Disturbance(other.Quantity, null, null)
                                    : new Disturbance(
                                        other.Quantity,
                                        Jobs.Print("0.01 mm"),
                                        random.Next(1, 4)
                                    )
                            ),
                    ],
                }),
            ],
        };

    private static BenchEntry Turn(Random random) =>
        random.Next(6) switch
        {
            0 => new Grinding { Kind = Any(Enum.GetValues<GrindingKind>(), random) },
            1 => new PartFitted { Part = Any(Enum.GetValues<PartKind>(), random) },
            _ => new Adjustment
            {
                Adjuster = Any([AdjusterKind.HeightRange, .. Fine.Select(one => one.Fine)], random),
                Side = Any(Enum.GetValues<Side>(), random),
                Direction = AdjustDirection.Open,
                Amount =
                    random.Next(3) == 0
                        ? new AdjustmentAmount.NotStated()
                        : new AdjustmentAmount.Steps(random.Next(1, 4)),
            },
        };

    private static Reading Read(MeasuredQuantity quantity) =>
        new()
        {
            Quantity = quantity,
            Station = new Station.Named(StationName.Left),
            Observed = new Observation.Measured(SmallJob.Print("1.00 mm")),
        };

    private static T Any<T>(IReadOnlyList<T> among, Random random) => among[random.Next(among.Count)];
}
