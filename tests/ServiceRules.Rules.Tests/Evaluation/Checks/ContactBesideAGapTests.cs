using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;
using Check = ServiceRules.Rules.Model.Check;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Contact noted where a gap was read, with nothing turned between: both cannot be, whichever way the unit is set.</summary>
public class ContactBesideAGapTests
{
    private static readonly Check Limit = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.StationsAndEnds
    );

    private static readonly Check Procedure = new Check.ProceduralLimit(MeasuredQuantity.Clearance);

    private static readonly Check Look = new Check.Contact(MeasuredQuantity.Clearance);

    private static Reading Gap(string station, string value) =>
        Measured(MeasuredQuantity.Clearance, station, value);

    /// <summary>0.090 mm is over the limit of 0.064 mm and contact below that of 0.012 mm: which of them is so nobody knows.</summary>
    [Theory]
    [InlineData(ContactState.Light)]
    [InlineData(ContactState.Heavy)]
    public void Evaluate_ContactOverTheWidthBesideAGapThatIsTooWide_IsAContradictionAndOpensNothing(
        ContactState contact
    ) =>
        Assert.All(
            new[] { Limit, Procedure, Look },
            check =>
            {
                var outcome = Judge(
                    check,
                    Gap("left", "0.090 mm") with
                    {
                        At = At("2026-04-13T08:20:00Z"),
                    },
                    Gap("right", "0.090 mm"),
                    Contact(contact) with
                    {
                        At = At("2026-04-13T08:25:00Z"),
                    }
                );

                Assert.Equal(
                    (Verdict.Unproven, FindingReason.Conflicting),
                    (outcome.Verdict, outcome.Reason)
                );
                Assert.Contains(
                    "at left (51 mm) a gap of 0.090 mm",
                    outcome.Statement,
                    StringComparison.Ordinal
                );
                Assert.Contains("(at 08:20), then", outcome.Statement, StringComparison.Ordinal);
                Assert.Contains(
                    "contact over the width (at 08:25), with nothing turned between",
                    outcome.Statement,
                    StringComparison.Ordinal
                );
                Assert.Contains(
                    "look again which of them is so",
                    Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why,
                    StringComparison.Ordinal
                );
            }
        );

    [Fact]
    public void Evaluate_FeelersAsTaughtAfterContactOverTheWidth_AreToldBothAndOpenNothing()
    {
        var outcome = Judge(
            Procedure,
            Contact(ContactState.Light),
            Feeler("left", "0.001 in", true),
            Feeler("left", "0.0015 in", false),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.0015 in", false)
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
        Assert.Contains(
            "light contact over the width, then a gap of between 0.0009 in and 0.0016 in",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
    }

    /// <summary>The gap read is too close as well, 0.004 mm at the most where 0.012 mm is the least: out whichever is so.</summary>
    [Fact]
    public void Evaluate_ContactBesideAGapThatIsTooClose_StaysOutAndIsReadAgainFirst()
    {
        var outcome = Judge(
            Limit,
            Feeler("left", "0.0002 in", true),
            Feeler("left", "0.0003 in", false),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.0015 in", false),
            Contact(ContactState.Light, "left")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            outcome.Notices,
            notice =>
                notice.Contains("then light contact, with nothing turned between", StringComparison.Ordinal)
        );
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
    }

    /// <summary>One side touches and the other is too wide: nothing there contradicts the other, and both stand.</summary>
    [Fact]
    public void Evaluate_ContactAtOneSideAndAGapAtTheOther_StaysOut() =>
        Assert.Equal(
            (Verdict.NotMet, FindingReason.WrongContact),
            Judge(Limit, Contact(ContactState.Light, "left"), Gap("right", "0.090 mm")) is var outcome
                ? (outcome.Verdict, outcome.Reason)
                : default
        );

    /// <summary>The gap of one place is contested; what is too wide at the other stays out, and is not turned before that.</summary>
    [Fact]
    public void Evaluate_ContactAndAGapAtOneSide_SoftenNoBreachAtTheOther()
    {
        var outcome = Judge(
            Limit,
            Gap("left", "0.030 mm"),
            Contact(ContactState.Light, "left"),
            Gap("right", "0.090 mm")
        );

        Assert.Equal((Verdict.NotMet, FindingReason.OutOfLimit), (outcome.Verdict, outcome.Reason));
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
    }

    /// <summary>Contact over part of the width leaves room for a gap at both ends.</summary>
    [Fact]
    public void Evaluate_PartialContactBesideGapsAtTheEnds_IsNoContradiction() =>
        Assert.Equal(
            Verdict.NotMet,
            Judge(
                Limit,
                Gap("left", "0.030 mm"),
                Gap("right", "0.030 mm"),
                Contact(ContactState.Partial)
            ).Verdict
        );

    /// <summary>What was read before the turn that brought it to touch contradicts nothing.</summary>
    [Fact]
    public void Evaluate_ContactAfterItWasClosed_IsNoContradiction() =>
        Assert.Equal(
            (Verdict.NotMet, FindingReason.WrongContact),
            Judge(
                Limit,
                Gap("left", "0.090 mm"),
                Gap("right", "0.090 mm"),
                Steps(AdjusterKind.Clearance, Side.Both, AdjustDirection.Close, 8),
                Contact(ContactState.Light)
            )
                is var outcome
                ? (outcome.Verdict, outcome.Reason)
                : default
        );

    /// <summary>Whatever gap was proven, whichever came first, in either school: never met, never opened, both told.</summary>
    [Property(MaxTest = 300)]
    public Property Evaluate_ContactBesideAProvenGap_IsNeverSettledByTurning()
    {
        var cases =
            from gap in Gen.Choose(30, 200)
            from contact in Gen.Elements(ContactState.Light, ContactState.Heavy)
            from isFirst in Gen.Elements(true, false)
            from school in Gen.Elements(ContactSchool.AirGap, ContactSchool.LightContact)
            select (gap, contact, isFirst, school);
        return Prop.ForAll(
            cases.ToArbitrary(),
            each =>
            {
                var value = string.Create(
                    System.Globalization.CultureInfo.InvariantCulture,
                    $"0.{each.gap:000} mm"
                );
                Reading[] read = [Gap("left", value), Gap("right", value)];
                Reading[] noted = [Contact(each.contact)];
                var frame = FrameBuilder.Build(
                    Record(Unit([.. each.isFirst ? noted.Concat(read) : read.Concat(noted)])),
                    Context with
                    {
                        SettingOrders = [Order with { Schools = [new("sheet-a", each.school)] }],
                    },
                    Book()
                );
                return new[] { Procedure, Look }.All(check =>
                    Judge(check, frame)
                        is {
                            Verdict: Verdict.Unproven,
                            Reason: FindingReason.Conflicting,
                            Remedy: Remedy.ReadAgain,
                        } outcome
                    && outcome.Statement.Contains(
                        "contact was noted where a gap was read",
                        StringComparison.Ordinal
                    )
                );
            }
        );
    }
}
