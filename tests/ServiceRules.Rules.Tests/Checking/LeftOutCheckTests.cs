using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Checking;

public sealed class LeftOutCheckTests
{
    private static readonly Rule Guards = SoundLibrary.Limit with
    {
        Id = new("guards-sound"),
        When = new() { SheetStates = MeasuredQuantity.Guards },
        Check = new Check.SoundCondition(MeasuredQuantity.Guards),
        Severity = Severity.Stop,
    };

    [Fact]
    public void Of_StatedQuantity_TellsNothing() =>
        Assert.Empty(
            Told(
                Guards,
                SoundLibrary.Sheet with
                {
                    Quantities =
                    [
                        .. SoundLibrary.Sheet.Quantities,
                        new() { Quantity = MeasuredQuantity.Guards, Basis = SoundLibrary.Practice },
                    ],
                }
            )
        );

    [Fact]
    public void Of_StopRuleNotReached_IsAnErrorThatNamesIt()
    {
        var remark = Assert.Single(Told(Guards, SoundLibrary.Sheet));

        Assert.Equal(DiagnosticLevel.Error, remark.Level);
        Assert.Equal(("sheets/a.sheet.json", "/quantities"), (remark.File, remark.Pointer));
        Assert.Contains("`guards-sound` stops", remark.What, StringComparison.Ordinal);
        Assert.Contains("`leftOut`", remark.Right, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_StopRuleLeftOutWithAReason_IsToldAllTheSame()
    {
        var remark = Assert.Single(Told(Guards, Without(MeasuredQuantity.Guards)));

        Assert.Equal((DiagnosticLevel.Notice, "/leftOut/0"), (remark.Level, remark.Pointer));
        Assert.Contains("`guards-sound`", remark.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_LighterRuleNotReached_IsANoticeUnlessTheSheetSaysWhy()
    {
        var rule = Guards with { Severity = Severity.Hold };

        Assert.Equal(DiagnosticLevel.Notice, Assert.Single(Told(rule, SoundLibrary.Sheet)).Level);
        Assert.Empty(Told(rule, Without(MeasuredQuantity.Guards)));
        Assert.Single(Told(rule, Without(MeasuredQuantity.Edge)));
    }

    /// <summary>A rule that names other kinds of unit, or asks for what this one has not, was never meant for it.</summary>
    [Fact]
    public void Of_RuleForOtherKindsOfUnit_TellsNothing()
    {
        Applicability[] others =
        [
            Guards.When with
            {
                Sheets = ["sheet-b"],
            },
            Guards.When with
            {
                Bedknife = BedknifeMounting.Fixed,
            },
            Guards.When with
            {
                AnyTurned = [AdjusterKind.Brush],
            },
        ];

        Assert.All(others, when => Assert.Empty(Told(Guards with { When = when }, SoundLibrary.Sheet)));
    }

    /// <summary>Where the site's rule takes the place of the base's and asks for no sheet, it reaches every kind.</summary>
    [Fact]
    public void Of_RuleReplacedByOneForEverySheet_TellsNothing() =>
        Assert.Empty(
            PackCheck
                .Of(
                    SoundLibrary.Sound with
                    {
                        Packs =
                        [
                            SoundLibrary.Pack(
                                "site",
                                PackLayer.Site,
                                Guards with
                                {
                                    When = Applicability.Always,
                                }
                            ),
                            SoundLibrary.Pack("base", PackLayer.Base, Guards),
                        ],
                    }
                )
                .Where(remark => remark.Code == DiagnosticCode.RuleNotReached)
        );

    private static LimitSheet Without(MeasuredQuantity quantity) =>
        SoundLibrary.Sheet with
        {
            LeftOut = [new(quantity, "It has none.")],
        };

    private static IEnumerable<Diagnostic> Told(Rule rule, LimitSheet sheet) =>
        PackCheck
            .Of(SoundLibrary.With(rule) with { Sheets = [new(sheet, "sheets/a.sheet.json", "")] })
            .Where(remark => remark.Code == DiagnosticCode.RuleNotReached);
}
