using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Duties;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Who keeps the key and who signs off, held against the register.</summary>
public sealed class PersonStandingTests
{
    [Theory]
    [InlineData("tech-01", null, Verdict.Met)]
    [InlineData("tech-01", PersonAsked.Known, Verdict.Met)]
    [InlineData("tech-01", PersonAsked.Authorised, Verdict.Met)]
    [InlineData("lead-01", PersonAsked.Authorised, Verdict.Met)]
    [InlineData("op-01", PersonAsked.Known, Verdict.Met)]
    [InlineData("op-01", PersonAsked.Authorised, Verdict.NotMet)]
    [InlineData("guest-01", null, Verdict.Met)]
    [InlineData("guest-01", PersonAsked.Known, Verdict.Unproven)]
    [InlineData("guest-01", PersonAsked.Authorised, Verdict.Unproven)]
    public void Evaluate_KeyAndSignature_AskWhatTheRuleAsks(
        string person,
        PersonAsked? asked,
        Verdict expected
    )
    {
        Assert.Equal(expected, Key(Registers.InOrder, person, asked).Verdict);
        Assert.Equal(expected, Signed(Registers.InOrder, person, asked).Verdict);
    }

    [Fact]
    public void Evaluate_SignedByAStranger_SaysSo()
    {
        var outcome = Signed(Registers.InOrder, "guest-01", PersonAsked.Known);

        Assert.Equal(FindingReason.NotRegistered, outcome.Reason);
        Assert.Equal(
            "Signed off by guest-01 at 2026-04-13T18:00:00+01:00, whom the register of people does not have.",
            outcome.Statement
        );
    }

    [Theory]
    [InlineData("op-01", 1)]
    [InlineData("lead-01", 0)]
    [InlineData("tech-01", 0)]
    public void Evaluate_KnownAndNotAuthorised_IsTold(string person, int notices)
    {
        Assert.Equal(notices, Key(Registers.InOrder, person, PersonAsked.Known).Notices.Length);
        Assert.Equal(notices, Signed(Registers.InOrder, person, PersonAsked.Known).Notices.Length);
    }

    /// <summary>Of whoever has hands in, that they are not authorised is told as that.</summary>
    [Fact]
    public void Evaluate_WhoeverHasHandsIn_IsNotToldTwice() =>
        Assert.Equal(
            Verdict.Met,
            Signed(Registers.InOrder.Knowing("tech-01", _ => null), "tech-01", PersonAsked.Authorised).Verdict
        );

    [Fact]
    public void Evaluate_NoRegisterKept_HasNothingToHoldAnybodyAgainst() =>
        Assert.Equal(Verdict.Met, Signed(MakeSafe.Complete, "guest-01", PersonAsked.Authorised).Verdict);

    [Theory]
    [InlineData(0, Verdict.Met)]
    [InlineData(-1, Verdict.NotMet)]
    public void Evaluate_Authorised_ByATrainingThatHoldsThatDay(int until, Verdict expected) =>
        Assert.Equal(
            expected,
            Signed(
                Registers.InOrder.Knowing(
                    "lead-01",
                    person => person with { TrainedUntil = Registers.Day.AddDays(until) }
                ),
                "lead-01",
                PersonAsked.Authorised
            ).Verdict
        );

    private static CheckOutcome Key(SafetyCase job, string person, PersonAsked? asked) =>
        (
            job with
            {
                Entries =
                [
                    .. job.Entries.Select(entry =>
                        entry.Kind == TimelineEventKind.KeyRemoved
                            ? entry with
                            {
                                Actor = new(person),
                            }
                            : entry
                    ),
                ],
            }
        ).Judge(FoundationChecks.Before(TimelineEventKind.KeyRemoved, MachineNeed.Key) with { By = asked });

    private static CheckOutcome Signed(SafetyCase job, string person, PersonAsked? asked) =>
        (
            job with
            {
                Recorded = record =>
                    record with
                    {
                        SignOff = record.SignOff! with { By = new Id<Participant>(person) },
                    },
            }
        ).Judge(new Check.RecordPart(RequiredPart.SignOff) { By = asked });
}
