using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Entries that carry one identity: the same event sent again, or two events under one name.</summary>
public sealed class SharedIdentityTests
{
    private const string Started = "08:20 work_started tech-01 id=e-1\n09:40 work_stopped tech-01\n";

    /// <summary>When it was received says nothing of what happened.</summary>
    [Theory]
    [InlineData("08:20 work_started tech-01 id=e-1", Verdict.Met)]
    [InlineData("08:20 work_started tech-01 id=e-1 received=09:00", Verdict.Met)]
    [InlineData("08:20 work_started tech-01 id=e-2", Verdict.Met)]
    [InlineData("08:21 work_started tech-01 id=e-1", Verdict.Unproven)]
    [InlineData("08:20 work_started tech-02 id=e-1", Verdict.Unproven)]
    [InlineData("08:20 work_stopped tech-01 id=e-1", Verdict.Unproven)]
    [InlineData("08:20 work_started tech-01 id=e-1 mark=late-entry", Verdict.Unproven)]
    [InlineData("08:20 work_started tech-01 id=e-1 device=tablet-1", Verdict.Unproven)]
    [InlineData("08:20 work_started tech-01 id=e-1 measures=EyeProtection", Verdict.Unproven)]
    public void Credibility_OneIdentity_IsDoubtedWhereTheContentDiffers(string again, Verdict expected)
    {
        var outcome = Duplicates(MakeSafe.Isolation + Started + again);

        Assert.Equal(expected, outcome.Verdict);
        if (expected == Verdict.Unproven)
        {
            Assert.Equal<IEnumerable<string>>(["/timeline/7", "/timeline/9"], outcome.Evidence);
        }
    }

    [Fact]
    public void Credibility_OneIdentityOfTwoEvents_NamesBothAndTheIdentity() =>
        Assert.StartsWith(
            "The parking brake set by tech-01 at 2026-04-13T08:02:00+01:00 and the machine started by op-03 at "
                + "2026-04-13T08:30:00+01:00 are entered under one identity (e-1): ",
            Duplicates(
                "08:02 parking_brake_set tech-01 id=e-1\n08:30 machine_started op-03 id=e-1"
            ).Statement,
            StringComparison.Ordinal
        );

    /// <summary>Whom an entry names is a part of what it says.</summary>
    [Theory]
    [InlineData("op-01", Verdict.Met)]
    [InlineData("op-02", Verdict.Unproven)]
    public void Credibility_OneIdentityAndOtherPeople_IsDoubted(string others, Verdict expected) =>
        Assert.Equal(
            expected,
            Duplicates(
                "08:00 affected_notified_before tech-01 others=op-01 id=e-1\n"
                    + $"08:00 affected_notified_before tech-01 others={others} id=e-1"
            ).Verdict
        );

    /// <summary>A start of the machine under the identity of another entry is a start all the same.</summary>
    [Fact]
    public void Protection_StartUnderTheIdentityOfAnotherEntry_IsJudged()
    {
        var hidden = new SafetyCase().With(
            MakeSafe.Seat.Replace(
                "parking_brake_set tech-01",
                "parking_brake_set tech-01 id=e-1",
                StringComparison.Ordinal
            )
                + MakeSafe.Isolation
                + MakeSafe.Work
                + "08:30 machine_started op-03 id=e-1\n"
        );

        Assert.Equal(Verdict.NotMet, hidden.Judge(new Check.Protection()).Verdict);
    }

    /// <summary>Neither of the two proves anything: nobody knows which of them was meant.</summary>
    [Fact]
    public void Weakened_OneIdentityOfTwoEvents_AreBoth()
    {
        var weakened = TimelineReading
            .Of(
                new SafetyCase()
                    .With("08:02 parking_brake_set tech-01 id=e-1\n08:30 gloves_worn tech-01 id=e-1")
                    .Frame()
            )
            .Weakened;

        Assert.Equal<IEnumerable<string>>(
            ["/timeline/0", "/timeline/1"],
            weakened.Order(StringComparer.Ordinal)
        );
    }

    private static CheckOutcome Duplicates(string timeline) =>
        new SafetyCase().With(timeline).Judge(new Check.Credibility(CredibilityOf.ConflictingDuplicates));
}
