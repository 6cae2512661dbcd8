using ServiceRules.Application.Assessing;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Reports.Drawings;
using ServiceRules.Reporting.Reports.SafeWork;

namespace ServiceRules.Reporting.Tests.Reports.SafeWork;

/// <summary>
/// Whoever wedged a reel, propped a unit up or put guards back had a hand there: two people are at work from 08:10 to 08:30, each
/// under their lock, tech-04 is told of it and nothing else.
/// </summary>
public sealed class HandStepTests
{
    [Theory]
    [InlineData(
        "08:20:00",
        TimelineEventKind.ReelWedged,
        "reel wedged at 08:20 (20), not shown as protected (A)"
    )]
    [InlineData(
        "08:31:10",
        TimelineEventKind.GuardsRefitted,
        "guards back at 08:31:10 (24), protection not proven (A)"
    )]
    [InlineData(
        "08:04:30",
        TimelineEventKind.UnitSupported,
        "unit lifted and supported at 08:04:30 (10), before work: nothing asked of it yet"
    )]
    [InlineData(
        "08:06:10",
        TimelineEventKind.ReelWedged,
        "reel wedged at 08:06:10 (13), not shown as protected (A)"
    )]
    public void People_KnownByAStepAlone_HaveARowWithItsMomentAndTheirProtectionThen(
        string at,
        TimelineEventKind kind,
        string told
    )
    {
        var view = View(With(SafeWorkSamples.ByTwo, at, kind, "tech-04"));

        var person = Assert.Single(view.People, one => one.Id.Text == "tech-04");
        told = told.Replace("(A)", $"({LetterOf(view)})", StringComparison.Ordinal);
        Assert.Equal(
            $"no hands-on work shown, and a hand at a unit. {char.ToUpperInvariant(told[0])}{told[1..]}.",
            HandsInLines.Line(view, person)
        );
        Assert.Contains(
            Printed($"tech-04: a hand at a unit: {told}"),
            Words(view.Job.Assessed),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("08:20:00", TimelineEventKind.ReelWedged, "Reel wedged at 08:20 (21), protected.")]
    [InlineData(
        "08:06:12",
        TimelineEventKind.ReelWedged,
        "Reel wedged at 08:06:12 (14), before work: every source off and held, proof still to come."
    )]
    public void People_KnownByAStepUnderTheirOwnLock_AreShownProtectedThen(
        string at,
        TimelineEventKind kind,
        string told
    )
    {
        var record = SafeWorkSamples.ByTwo;
        var hung = record.Timeline.First(one => one.Lock?.Text == "L-51");
        var off = record.Timeline.Last(one => one.Lock?.Text == "L-51");

        var view = View(
            With(
                record with
                {
                    Timeline = [.. record.Timeline, ByAnother(hung, "08:06:10"), ByAnother(off, "08:32:55")],
                },
                at,
                kind,
                "tech-04"
            )
        );

        Assert.EndsWith(
            told,
            HandsInLines.Line(view, Assert.Single(view.People, one => one.Id.Text == "tech-04")),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Letter_OfAStep_StandsWhereTheHandWas()
    {
        var view = View(With(SafeWorkSamples.ByTwo, "08:20:00", TimelineEventKind.ReelWedged, "tech-04"));
        var cause = view.Causes.Single(one => one.Cause.Findings[0].Rule.Id.Text == "work-protected");

        Assert.Equal(
            view.Events.Single(one => one.Event.Kind == TimelineEventKind.ReelWedged).Number,
            LetterPlace.Of(view, cause)
        );
    }

    /// <summary>Of whoever did the work, a step is told beside it where it is held against them, and no other.</summary>
    [Fact]
    public void People_AtWorkAndAtAUnitAfterTheLockCameOff_AreNotCalledProtectedThroughout()
    {
        var view = View(With(SafeWorkSamples.ByTwo, "08:34:00", TimelineEventKind.ReelWedged, "tech-01"));
        var line = HandsInLines.Line(view, Assert.Single(view.People, one => one.Id.Text == "tech-01"));

        Assert.EndsWith(
            $"Reel wedged at 08:34 (29), not shown as protected ({LetterOf(view)}).",
            line,
            StringComparison.Ordinal
        );
        Assert.Contains("20 min, these minutes protected from all", line, StringComparison.Ordinal);
        Assert.DoesNotContain("uards back", line, StringComparison.Ordinal);
    }

    /// <summary>Where a claim takes lockout off the job, nothing is held against guards put back without one.</summary>
    [Fact]
    public void People_UnderAClaim_AreToldNothingOfGuardsPutBack()
    {
        var view = View(SampleJobs.Judge(SafeWorkSamples.ByClaim));

        Assert.Contains(view.Events, one => one.Event.Kind == TimelineEventKind.GuardsRefitted);
        Assert.All(
            view.People,
            person =>
                Assert.DoesNotContain("uards back", HandsInLines.Line(view, person), StringComparison.Ordinal)
        );
    }

    /// <summary>Of an isolator entered with words that deny it the lane is not off, and nobody is shown protected behind it.</summary>
    [Fact]
    public void Isolator_DeniedByItsWords_IsNotOffAndProtectsNobody()
    {
        var view = View(
            SampleJobs.Judge(
                SafeWorkSamples.Each(
                    SafeWorkSamples.ByTwo,
                    one =>
                        one is { Kind: TimelineEventKind.IsolatorOperated, Position: IsolatorPosition.Off }
                            ? one with
                            {
                                Method = "disconnect would not turn",
                            }
                            : one
                )
            )
        );

        Assert.All(
            view.People,
            person =>
                Assert.Contains(
                    "of it not shown as protected",
                    HandsInLines.Line(view, person),
                    StringComparison.Ordinal
                )
        );
        Assert.Equal(
            Hold.None,
            EventMeaning.Of(
                view.Events.First(one => one.Event.Kind == TimelineEventKind.IsolatorOperated).Event
            )
        );
        Assert.Contains(
            view.Marked,
            one => one.Told.Rule.Id.Text == "work-protected" && one.Told.Finding.Verdict == Verdict.Unproven
        );
    }

    private static string? LetterOf(SafeWorkView view) =>
        view.Marked.FirstOrDefault(one => one.Told.Rule.Id.Text == "work-protected")?.Letter;

    private static Assessed With(ServiceRecord record, string at, TimelineEventKind kind, string by) =>
        SampleJobs.Judge(
            record with
            {
                Timeline =
                [
                    .. record.Timeline,
                    new()
                    {
                        Kind = kind,
                        At = SafeWorkSamples.Time($"2026-04-13T{at}+01:00"),
                        Actor = new(by),
                    },
                ],
            }
        );

    private static TimelineEvent ByAnother(TimelineEvent entry, string at) =>
        entry with
        {
            At = SafeWorkSamples.Time($"2026-04-13T{at}+01:00"),
            Actor = new("tech-04"),
            Lock = new Id<LockDevice>("L-41"),
        };

    private static SafeWorkView View(Assessed job) =>
        new(new JobView(job, ReportTerms.Default, FontMeasure.Shipped, SampleReport.IssuedAt));

    private static string Words(Assessed job) =>
        Layout.Printable.Of(
            string.Concat(
                SafeWorkReport
                    .LayOut(job, ReportTerms.Default, SampleReport.Statement, FontMeasure.Shipped)
                    .Texts()
                    .Select(text => text.Content)
            )
        );

    private static string Printed(string words) =>
        Layout.Printable.Of(VisibleText.Of(words, Face.Text, FontMeasure.Shipped));
}
