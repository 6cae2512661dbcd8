using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Checks.ClipCheckTests;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class WavePitchCheckTests
{
    private static readonly Check Wave = new Check.WavePitch();

    private static readonly LimitSheet WithRollers = Sheet with
    {
        FrontRollerDiameter = D("51 mm"),
        RearRollerDiameter = D("50 mm"),
    };

    [Fact]
    public void Evaluate_OnceATurnOfTheReel_SaysWhereToLook()
    {
        var outcome = Judge(Wave, Tried(new(Kmh("6"), Rpm("2200"), null, L("45 mm"))));

        Assert.Equal((Verdict.NotMet, FindingReason.Faulty), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "Wave on the turf: 45 mm from tip to tip, in the published band up to 2 in that is put down to the clip (MK7, MK8); "
                + "it fits once in each turn of the reel, 45.45 mm (1 % off) (derived)",
            outcome.Statement
        );
        Assert.Equal(new Remedy.Act("look for one high blade and for a reel that runs out"), outcome.Remedy);
        Assert.Equal(["/machine/tested"], outcome.Evidence.AsEnumerable());
    }

    // 160.22 and 157.08 mm: both within a tenth of 160 mm.
    [Fact]
    public void Evaluate_BothRollersFit_NamesBothAndOneThingToDo()
    {
        var outcome = Judge(Wave, Tried(new(null, null, null, L("160 mm")), WithRollers));

        Assert.Equal(
            "Wave on the turf: 160 mm from tip to tip, in the published band of 6 to 8 in that is put down to a roller out of "
                + "round or a rocking unit (MK7, MK8); it fits once in each turn of the front roller, 160.22 mm (0 % off) "
                + "and once in each turn of the rear roller, 157.08 mm (2 % off) (derived)",
            outcome.Statement
        );
        Assert.Equal(
            new Remedy.Act("look for a roller out of round, play in its bearings, and a unit that rocks"),
            outcome.Remedy
        );
    }

    [Fact]
    public void Evaluate_NothingFits_TellsTheNearest()
    {
        var outcome = Judge(Wave, Tried(new(null, null, null, L("100 mm")), WithRollers));

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal(
            "Wave on the turf: 100 mm from tip to tip; no part that is known here fits; the nearest is once in each turn of the "
                + "rear roller, 157.08 mm (36 % off) (derived)",
            outcome.Statement
        );
        Assert.Equal(new Remedy.Act("Do something about it."), outcome.Remedy);
    }

    /// <summary>A clip of 5.05 mm beside a height that nobody read, that is less and that is more.</summary>
    [Theory]
    [InlineData(null, "they stand one clip apart")]
    [InlineData("4.00 mm", "and the clip is wider than the height of cut (")]
    [InlineData("12.00 mm", "though the clip is within the height of cut (")]
    public void Evaluate_EveryBlade_CallsTheClipTooWideOnlyWhereItIsWider(string? height, string told)
    {
        BenchEntry[] read = height is null ? [] : [Height("left", height), Height("right", height)];
        var act = Assert.IsType<Remedy.Act>(
            Judge(Wave, Tried(new(Kmh("6"), Rpm("2200"), null, L("5 mm")), read)).Remedy
        );

        Assert.StartsWith("slow down or turn the reel faster", act.What, StringComparison.Ordinal);
        Assert.Contains(told, act.What, StringComparison.Ordinal);
        Assert.Equal(
            height == "12.00 mm",
            act.What.Contains("the record does not show", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Evaluate_NothingToTellItBy_IsUnproven()
    {
        var outcome = Judge(Wave, Tried(new(null, null, null, L("45 mm"))));

        Assert.Equal((Verdict.Unproven, FindingReason.NoSettingInForce), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_NoWaveMeasured_DoesNotApply() =>
        Assert.Equal(Verdict.NotApplicable, Judge(Wave, Height("left", "4.00 mm")).Verdict);
}
