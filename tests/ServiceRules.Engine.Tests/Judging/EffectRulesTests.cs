using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Judging;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests.Judging;

public class EffectRulesTests
{
    private static readonly Check Before = new Check.RequiredEvent(
        [TimelineEventKind.KeyRemoved],
        RequiredPer.Job,
        RequiredWhen.BeforeWork,
        null
    );

    private static readonly Check After = new Check.RequiredEvent(
        [TimelineEventKind.GuardsRefitted],
        RequiredPer.Job,
        RequiredWhen.AfterWork,
        null
    );

    private static readonly Subject OnUnit = new Subject.Unit(new("a"));

    private static LetOut Of(
        Rule rule,
        Verdict verdict,
        ServiceRecord? record = null,
        AssessmentContext? context = null
    ) =>
        new EffectRules(Jobs.Frame(record ?? Jobs.Record(Jobs.Unit("a")), [], context)).Of(
            rule,
            OnUnit,
            verdict
        );

    // Design, "Precise meanings": unproven, open job.
    [Theory]
    [InlineData(Verdict.Met, Severity.Stop, UnprovenPolicy.Hold, Effect.None)]
    [InlineData(Verdict.NotApplicable, Severity.Stop, UnprovenPolicy.Hold, Effect.None)]
    [InlineData(Verdict.NotMet, Severity.Stop, UnprovenPolicy.Advise, Effect.Stop)]
    [InlineData(Verdict.NotMet, Severity.Hold, UnprovenPolicy.Advise, Effect.Hold)]
    [InlineData(Verdict.NotMet, Severity.Advise, UnprovenPolicy.Hold, Effect.Advise)]
    [InlineData(Verdict.Unproven, Severity.Stop, UnprovenPolicy.Hold, Effect.Hold)]
    [InlineData(Verdict.Unproven, Severity.Stop, UnprovenPolicy.SecondPerson, Effect.Hold)]
    [InlineData(Verdict.Unproven, Severity.Hold, UnprovenPolicy.Hold, Effect.Hold)]
    [InlineData(Verdict.Unproven, Severity.Hold, UnprovenPolicy.Advise, Effect.Advise)]
    [InlineData(Verdict.Unproven, Severity.Advise, UnprovenPolicy.Hold, Effect.Advise)]
    public void Of_ClosedJob_FollowsSeverityAndPolicy(
        Verdict verdict,
        Severity severity,
        UnprovenPolicy unproven,
        Effect expected
    ) =>
        Assert.Equal(
            new LetOut(expected, null),
            Of(Jobs.Rule("r", check: Before, severity: severity, unproven: unproven), verdict)
        );

    [Theory]
    [InlineData(CredibilityOf.LockInTwoPlaces, Effect.Stop)]
    [InlineData(CredibilityOf.Bursts, Effect.Hold)]
    public void Of_DoubtOnAnOpenJob_StopsWhereALockIsReliedOn(CredibilityOf doubt, Effect expected) =>
        Assert.Equal(
            expected,
            Of(
                Jobs.Rule(
                    "r",
                    check: new Check.Credibility(doubt),
                    severity: Severity.Stop,
                    unproven: UnprovenPolicy.SecondPerson
                ),
                Verdict.Unproven,
                Jobs.Record(Jobs.Unit("a")) with
                {
                    SignOff = null,
                }
            ).Effect
        );

    [Fact]
    public void Of_UnprovenOnAnOpenJob_StopsWhereHandsGoInNext()
    {
        var open = Jobs.Record(Jobs.Unit("a")) with { SignOff = null };

        Assert.Equal(
            Effect.Stop,
            Of(Jobs.Rule("r", check: Before, severity: Severity.Stop), Verdict.Unproven, open).Effect
        );
        Assert.Equal(
            Effect.Hold,
            Of(Jobs.Rule("r", check: After, severity: Severity.Stop), Verdict.Unproven, open).Effect
        );
        Assert.Equal(
            Effect.Hold,
            Of(Jobs.Rule("r", check: Before, severity: Severity.Hold), Verdict.Unproven, open).Effect
        );
    }

    [Theory]
    [InlineData("lead-01", UnprovenPolicy.SecondPerson, Verdict.Unproven, true)]
    [InlineData("tech-01", UnprovenPolicy.SecondPerson, Verdict.Unproven, false)]
    [InlineData("lead-02", UnprovenPolicy.SecondPerson, Verdict.Unproven, false)]
    [InlineData("lead-03", UnprovenPolicy.SecondPerson, Verdict.Unproven, false)]
    [InlineData("lead-01", UnprovenPolicy.Hold, Verdict.Unproven, false)]
    [InlineData("lead-01", UnprovenPolicy.SecondPerson, Verdict.NotMet, false)]
    public void Of_ReleasedBySomeone_CountsOnlyFromASecondPersonForUnproven(
        string by,
        UnprovenPolicy policy,
        Verdict verdict,
        bool counts
    )
    {
        var record = Jobs.Record(Jobs.Unit("a")) with
        {
            Releases = [new(new(by), Jobs.Noon, "r", new("a"), "seen by eye")],
        };
        var rule = Jobs.Rule("r", unproven: policy);
        var effects = new EffectRules(Jobs.Frame(record, []));

        var letOut = effects.Of(rule, OnUnit, verdict);
        var refused = effects.Refused(rule, OnUnit, verdict).ToList();

        Assert.Equal(
            counts ? new LetOut(Effect.Advise, "released by `lead-01`: seen by eye") : new(Effect.Hold, null),
            letOut
        );
        Assert.Equal(counts ? 0 : 1, refused.Count);
    }

    [Theory]
    [InlineData("tech-01", "they did the work themselves")]
    [InlineData("lead-02", "the register does not let them release anything")]
    [InlineData("lead-03", "the register of people does not have them")]
    public void Refused_BySomeoneWhoMayNot_SaysWhy(string by, string why)
    {
        var record = Jobs.Record(Jobs.Unit("a")) with
        {
            Releases = [new(new(by), Jobs.Noon, "r", null, "seen by eye")],
        };
        var context = Jobs.Context with
        {
            Waivers = [new("r", null, new(by), "parts on order", Jobs.Day, Jobs.Day)],
        };
        var effects = new EffectRules(Jobs.Frame(record, [], context));

        Assert.Equal(
            [$"the waiver by `{by}` does not count: {why}", $"the release by `{by}` does not count: {why}"],
            effects.Refused(Jobs.Rule("r", unproven: UnprovenPolicy.SecondPerson), OnUnit, Verdict.Unproven)
        );
    }

    /// <summary>Not at work, and may release; but the exception that he would release is his own.</summary>
    [Fact]
    public void Of_ReleaseByWhoeverClaimedAnExemption_DoesNotCount()
    {
        var claimed = new TimelineEvent
        {
            Kind = TimelineEventKind.ExemptionClaimed,
            At = Jobs.Noon,
            Actor = new("tech-01"),
            Claim = new(ExemptionKind.NotCovered, DecidedBy: new("lead-01")),
        };
        var record = Jobs.Record(Jobs.Unit("a")) with
        {
            Timeline = [claimed],
            Releases = [new(new("lead-01"), Jobs.Noon, "r", null, "seen by eye")],
        };
        var rule = Jobs.Rule("r", unproven: UnprovenPolicy.SecondPerson);
        var effects = new EffectRules(Jobs.Frame(record, []));

        Assert.Equal(Effect.Hold, effects.Of(rule, OnUnit, Verdict.Unproven).Effect);
        Assert.Equal(
            [
                "the release by `lead-01` does not count: the exception from safe work in this job is their own",
            ],
            effects.Refused(rule, OnUnit, Verdict.Unproven)
        );
    }

    [Fact]
    public void Of_ReleaseByWhoeverTurnedSomething_DoesNotCount()
    {
        var entry = new Reading
        {
            Quantity = MeasuredQuantity.Clearance,
            Observed = new Observation.Contact(ContactState.None),
            By = new("lead-01"),
        };
        var record = Jobs.Record(Jobs.Unit("a", "small", entry)) with
        {
            Releases = [new(new("lead-01"), Jobs.Noon, "r", null, "seen by eye")],
        };

        Assert.Equal(
            Effect.Hold,
            Of(Jobs.Rule("r", unproven: UnprovenPolicy.SecondPerson), Verdict.Unproven, record).Effect
        );
    }

    /// <summary>A release says that somebody looked: before the first entry there was nothing to look at.</summary>
    [Theory]
    [InlineData("2026-04-13T12:00:01Z", false)]
    [InlineData("2026-04-13T12:00:00Z", true)]
    [InlineData("2026-04-13T11:00:00", true)]
    public void Of_ReleaseBeforeTheFirstEntry_DoesNotCount(string first, bool counts)
    {
        var entry = new TimelineEvent
        {
            Kind = TimelineEventKind.WorkStarted,
            At = RecordedTime.Parse(first).TryGet(out var time, out _) ? time : null!,
            Actor = new("tech-01"),
        };
        var record = Jobs.Record(Jobs.Unit("a")) with
        {
            Timeline = [entry],
            Releases = [new(new("lead-01"), Jobs.Noon, "r", null, "seen by eye")],
        };
        var rule = Jobs.Rule("r", unproven: UnprovenPolicy.SecondPerson);
        var effects = new EffectRules(Jobs.Frame(record, []));

        Assert.Equal(counts ? Effect.Advise : Effect.Hold, effects.Of(rule, OnUnit, Verdict.Unproven).Effect);
        Assert.Equal(
            counts
                ? []
                :
                [
                    "the release by `lead-01` does not count: it is of 2026-04-13T12:00:00Z, before the job's first entry",
                ],
            effects.Refused(rule, OnUnit, Verdict.Unproven)
        );
    }

    [Fact]
    public void Of_ReleaseForAnotherUnitOrRule_DoesNotCount()
    {
        var record = Jobs.Record(Jobs.Unit("a")) with
        {
            Releases =
            [
                new(new("lead-01"), Jobs.Noon, "r", new("b"), "other unit"),
                new(new("lead-01"), Jobs.Noon, "s", null, "other rule"),
            ],
        };

        Assert.Equal(
            Effect.Hold,
            Of(Jobs.Rule("r", unproven: UnprovenPolicy.SecondPerson), Verdict.Unproven, record).Effect
        );
    }

    [Theory]
    [InlineData("r", null, "lead-01", 0, 0, true)]
    [InlineData("r", "a", "lead-01", -3, 3, true)]
    [InlineData("r", "b", "lead-01", -3, 3, false)]
    [InlineData("s", null, "lead-01", -3, 3, false)]
    [InlineData("r", null, "tech-01", -3, 3, false)]
    [InlineData("r", null, "lead-02", -3, 3, false)]
    [InlineData("r", null, "lead-03", -3, 3, false)]
    [InlineData("r", null, "lead-01", 1, 3, false)]
    [InlineData("r", null, "lead-01", -3, -1, false)]
    public void Of_Waived_CountsInItsPeriodFromAnotherPerson(
        string rule,
        string? unit,
        string by,
        int from,
        int until,
        bool counts
    )
    {
        var context = Jobs.Context with
        {
            Waivers =
            [
                new(rule, unit, new(by), "parts on order", Jobs.Day.AddDays(from), Jobs.Day.AddDays(until)),
            ],
        };

        var letOut = Of(Jobs.Rule("r"), Verdict.NotMet, context: context);

        Assert.Equal(counts ? Effect.Advise : Effect.Hold, letOut.Effect);
        Assert.Equal(counts, letOut.By is not null);
    }

    /// <summary>What could hurt someone is never waived: not where it is out, not where nothing shows that it is in.</summary>
    [Theory]
    [InlineData(Verdict.NotMet, Effect.Stop)]
    [InlineData(Verdict.Unproven, Effect.Hold)]
    public void Of_WaivedRuleThatStops_LetsNothingOutAndSaysSo(Verdict verdict, Effect expected)
    {
        var context = Jobs.Context with
        {
            Waivers = [new("r", null, new("lead-01"), "parts on order", Jobs.Day, Jobs.Day)],
        };
        var rule = Jobs.Rule("r", severity: Severity.Stop);

        Assert.Equal(new LetOut(expected, null), Of(rule, verdict, context: context));
        Assert.Equal(
            ["the waiver by `lead-01` does not count: someone could be hurt, and that is never waived"],
            new EffectRules(Jobs.Frame(Jobs.Record(Jobs.Unit("a")), [], context)).Refused(
                rule,
                OnUnit,
                verdict
            )
        );
    }
}
