using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Engine.Tests.Differential;

/// <summary>What the second opinion once found wrong, by itself.</summary>
public class DisagreementTests
{
    private static readonly (ServiceRecord Record, AssessmentContext Context) Service = Fixture(
        "F-full-service-125"
    );

    private static readonly (ServiceRecord Record, AssessmentContext Context) Check = Fixture(
        "F-height-check"
    );

    [Theory]
    [InlineData("clearance-within-limits")]
    [InlineData("clearance-set-as-taught")]
    public void Assess_ContactNotedInTwoWaysAfterFeelers_IsConflicting(string rule)
    {
        var finding = Assess(
                Service,
                entries =>
                    entries.Add(
                        new Reading
                        {
                            Quantity = MeasuredQuantity.Clearance,
                            Observed = new Observation.Contact(ContactState.Partial),
                        }
                    )
            )
            .Of(rule, "unit/U-11-1");

        Assert.Equal(Verdict.Unproven, finding.Verdict);
        Assert.Equal(FindingReason.Conflicting, finding.Reason);
    }

    [Fact]
    public void Assess_HeightGoneStaleBeforeTheGroomerWasRead_LeavesTheGroomerFresh()
    {
        var assessment = Assess(
            Service,
            entries =>
                entries.Insert(
                    entries.IndexOf(
                        entries.OfType<Adjustment>().First(a => a.Adjuster == AdjusterKind.Groomer)
                    ),
                    Turned(AdjusterKind.Clearance)
                )
        );

        Assert.Equal(Verdict.Met, assessment.Of("groomer-read-after-height", "unit/U-11-1").Verdict);
        Assert.Equal(Verdict.Unproven, assessment.Of("groomer-starts-at-height", "unit/U-11-1").Verdict);
    }

    [Fact]
    public void Assess_OneStationNeverReadAndTheOtherStale_IsNotMetOnceSignedOff()
    {
        var unit = Check.Record.Units[0].Id.Text;

        var finding = Assess(Check, entries => [entries[0], Turned(AdjusterKind.BedknifePosition)])
            .Of("height-both-ends", "unit/" + unit);

        Assert.Equal(Verdict.NotMet, finding.Verdict);
        Assert.Equal(FindingReason.TooFewStations, finding.Reason);
    }

    [Fact]
    public void Assess_ZeroCheckFurtherOffThanTheGaugeShows_IsNotFit()
    {
        var gauge = Check.Record.Instruments[0];
        var off = PrintedLength.Parse("0.05 mm").TryGet(out var print, out _) ? print : null!;
        var record = Check.Record with
        {
            Instruments = [gauge with { ZeroCheck = new(off, null) }, .. Check.Record.Instruments.Skip(1)],
        };

        var finding = Assess((record, Check.Context), entries => entries).Of("instruments-fit", "job");

        Assert.Equal(Verdict.NotMet, finding.Verdict);
        Assert.Equal(FindingReason.GaugeUnfit, finding.Reason);
    }

    [Fact]
    public void Assess_MiddleReadTwiceWithoutAgreement_IsConflicting()
    {
        var unit = Check.Record.Units[0];
        var reading = unit.Entries.OfType<Reading>().First(r => r.Quantity == MeasuredQuantity.HeightOfCut);

        var finding = Assess(
                Check,
                entries => [.. entries, Middle(reading, "3.80 mm"), Middle(reading, "3.86 mm")]
            )
            .Of("height-in-range", "unit/" + unit.Id.Text);

        Assert.Equal(Verdict.Unproven, finding.Verdict);
        Assert.Equal(FindingReason.Conflicting, finding.Reason);
    }

    [Fact]
    public void Assess_StripNippedThenMissed_IsFaultyNotConflicting()
    {
        var strips = new[] { PaperResult.Nips, PaperResult.Misses }.Select(result =>
            (BenchEntry)
                new Reading { Quantity = MeasuredQuantity.Edge, Observed = new Observation.Paper(result) }
        );

        var finding = Assess(Service, entries => [.. entries, .. strips])
            .Of("edges-cut-paper", "unit/U-11-1");

        Assert.Equal(Verdict.NotMet, finding.Verdict);
    }

    [Fact]
    public void Assess_WaiverOfSomethingThatCouldHurt_DoesNotCount()
    {
        var record = Check.Record with
        {
            Timeline =
            [
                .. Check.Record.Timeline.Where(e =>
                    e.Kind != Domain.Timeline.TimelineEventKind.IsolationVerified
                ),
            ],
        };
        var context = Check.Context with
        {
            Waivers =
            [
                new("isolation-verified", null, new("officer-01"), "in a hurry", record.Date, record.Date),
            ],
        };

        var assessment = Assess((record, context), entries => entries);

        var finding = assessment.Of("isolation-verified", "job");
        Assert.Equal(Effect.Stop, finding.Effect);
        Assert.Null(finding.LetOut);
        Assert.Contains(finding.Notices, notice => notice.Contains("never waived", StringComparison.Ordinal));
        Assert.Equal(Disposition.Stop, assessment.Job.Disposition);
    }

    private static Reading Middle(Reading like, string value) =>
        like with
        {
            Station = new Station.Named(StationName.Middle),
            Observed = new Observation.Measured(
                PrintedLength.Parse(value).TryGet(out var print, out _) ? print : null!
            ),
        };

    private static Adjustment Turned(AdjusterKind adjuster) =>
        new()
        {
            Adjuster = adjuster,
            Side = Side.Both,
            Direction = AdjustDirection.Close,
            Amount = new AdjustmentAmount.NotStated(),
        };

    private static (ServiceRecord Record, AssessmentContext Context) Fixture(string id) =>
        Shelf.Fixtures.Single(f => f.Record.Id.Text == id);

    private static Assessment Assess(
        (ServiceRecord Record, AssessmentContext Context) job,
        Func<ImmutableArray<BenchEntry>, ImmutableArray<BenchEntry>> change
    )
    {
        var unit = job.Record.Units[0];
        var record = job.Record with
        {
            Units = job.Record.Units.SetItem(0, unit with { Entries = change(unit.Entries) }),
        };
        return new RuleEngine().Assess(record, job.Context, Shelf.Book(Shelf.Rules), Jobs.Digests);
    }
}
