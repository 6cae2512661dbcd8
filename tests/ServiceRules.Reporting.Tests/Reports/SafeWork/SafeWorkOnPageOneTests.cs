using ServiceRules.Application.Assessing;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Reports.SafeWork;

namespace ServiceRules.Reporting.Tests.Reports.SafeWork;

/// <summary>What an officer reads first must not say more than the verdicts do.</summary>
public sealed class SafeWorkOnPageOneTests
{
    private static SafeWorkView View(Assessed job) =>
        new(new JobView(job, ReportTerms.Default, FontMeasure.Shipped, SampleReport.IssuedAt));

    private static PlacedDocument LayOut(Assessed job) =>
        SafeWorkReport.LayOut(job, ReportTerms.Default, SampleReport.Statement, FontMeasure.Shipped);

    private static string Words(IEnumerable<PlacedPage> pages) =>
        Layout.Printable.Of(
            string.Concat(new PlacedDocument([.. pages]).Texts().Select(text => text.Content))
        );

    private static string Printed(string words) =>
        Layout.Printable.Of(VisibleText.Of(words, Face.Text, FontMeasure.Shipped));

    private static int NumberOf(SafeWorkView view, TimelineEventKind kind, string actor) =>
        view.Events.First(one => one.Event.Kind == kind && one.Event.Actor.Text == actor).Number;

    [Fact]
    public void Hands_ProtectedByEntriesThatAreNotCredible_AreToldAsNotProvenInMinutes()
    {
        var printed = Words(LayOut(SampleJobs.Judge(SafeWorkSamples.BackFilled)).Pages);

        Assert.Contains(
            Printed("20 min; of it shown as protected but not proven: 08:10 to 08:30 (18, 21), 20 min"),
            printed,
            StringComparison.Ordinal
        );
        Assert.Contains(
            Printed("tech-05: hands in 18 min 20 s, unprotected 0 min, not proven 18 min 20 s"),
            printed,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(Printed("all of it protected"), printed, StringComparison.Ordinal);
    }

    [Fact]
    public void Hands_OfOneWhoseStartNobodyEntered_AreNotCalledProtected()
    {
        var view = View(SampleJobs.Judge(SafeWorkSamples.WithoutAStart));

        var printed = Words(LayOut(view.Job.Assessed).Pages);

        var open = view.People.Single(person => person.Id.Text == "tech-05").LeftOpen;
        Assert.NotNull(open);
        Assert.Contains(
            Printed($"tech-05: the record does not show when hands were in ({open.Letter})"),
            printed,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Hands_LockOffInTheMiddle_AreToldInMinutesOfThatPersonAlone()
    {
        var printed = Words(LayOut(SampleJobs.Judge(SafeWorkSamples.LockOffAtWork)).Pages);

        // 08:18 to the end of the work at 08:30, read off the sample.
        Assert.Contains(
            Printed("of it not shown as protected: 08:18 to 08:30 (20, 22), 12 min"),
            printed,
            StringComparison.Ordinal
        );
        Assert.Contains(
            Printed("tech-05: hands in 18 min 20 s, unprotected 0 min"),
            printed,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Headline_LockoutLiftedByAClaim_NamesTheClaimAndWhoDecidedIt()
    {
        var job = SampleJobs.Judge(SafeWorkSamples.ByClaim);

        var printed = Words(LayOut(job).Pages);

        Assert.Equal(SafeWorkStanding.Exempt, SafeWorkFindings.Of(job).Standing);
        Assert.Contains(
            Printed("Exempt from lockout by a claim decided by lead-01"),
            printed,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(Printed("Record shows safe work"), printed, StringComparison.Ordinal);
        Assert.DoesNotContain(Printed("all of it protected"), printed, StringComparison.Ordinal);
    }

    [Fact]
    public void Headline_ClaimThatNamesNobody_IsOfWhoeverEnteredIt()
    {
        var undecided = SafeWorkSamples.Each(
            SafeWorkSamples.ByClaim,
            one => one.Claim is null ? one : one with { Claim = one.Claim with { DecidedBy = null } }
        );

        Assert.Contains(
            Printed("Exempt from lockout by a claim decided by tech-01, who entered it"),
            Words(LayOut(SampleJobs.Judge(undecided)).Pages),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Letter_OfABreachInTheMiddle_StandsWhereTheLockCameOff()
    {
        var view = View(SampleJobs.Judge(SafeWorkSamples.LockOffAtWork));
        var bare = view.Causes.Single(cause => cause.Cause.Findings[0].Rule.Id.Text == "work-protected");

        Assert.Equal(NumberOf(view, TimelineEventKind.LockRemoved, "tech-01"), LetterPlace.Of(view, bare));
    }

    [Fact]
    public void Letter_OfABreachFromTheStart_StandsWhereThatPersonWentIn()
    {
        var view = View(SampleJobs.Judge(SafeWorkSamples.SecondWithoutLock));
        var bare = view.Causes.Single(cause => cause.Cause.Findings[0].Rule.Id.Text == "work-protected");

        Assert.Equal(NumberOf(view, TimelineEventKind.WorkStarted, "tech-05"), LetterPlace.Of(view, bare));
    }

    [Fact]
    public void Cause_EntriesNotCredible_IsToldOnceWithEveryDutyThatItTouches()
    {
        var view = View(SampleJobs.Judge(SafeWorkSamples.BackFilled));
        var document = LayOut(view.Job.Assessed);

        var cause = Assert.Single(view.DueCauses, cause => cause.Cause.IsOfCredibility);
        var first = Words([document.Pages[0]]);

        Assert.True(cause.Marked.Length > 20, $"{cause.Marked.Length} duties");
        Assert.Contains(
            Printed($"Not proven, {cause.Marked.Length} duties ({cause.Letters})"),
            first,
            StringComparison.Ordinal
        );
        Assert.All(
            cause.Marked,
            marked =>
                Assert.Contains(
                    Printed($"{marked.Letter} {view.Job.TitleOf(marked.Told.Finding).ToLowerInvariant()}"),
                    first,
                    StringComparison.Ordinal
                )
        );
        Assert.Equal(
            view.Marked.Length,
            view.Marked.Select(marked => marked.Letter).Distinct(StringComparer.Ordinal).Count()
        );
    }

    /// <summary>One missing lock leaves three duties open, and there is one thing to do about it.</summary>
    [Fact]
    public void Cause_SecondWithoutLock_IsToldOnceAndTouchesNobodyElse()
    {
        var view = View(SampleJobs.Judge(SafeWorkSamples.SecondWithoutLock));

        var cause = Assert.Single(view.DueCauses);
        var printed = Words(LayOut(view.Job.Assessed).Pages);

        Assert.True(cause.Cause.IsOfHands);
        Assert.Equal(
            ["own-device-in-group", "own-device-through-work", "work-protected"],
            cause.Marked.Select(marked => marked.Told.Rule.Id.Text).Order(StringComparer.Ordinal)
        );
        Assert.Contains(
            Printed("tech-01: hands in 08:10 to 08:30 (17, 20), 20 min, all of it protected"),
            printed,
            StringComparison.Ordinal
        );
        Assert.Contains(
            Printed(
                "tech-05: hands in 08:10:40 to 08:29 (18, 19), 18 min 20 s; of it not shown as protected"
            ),
            printed,
            StringComparison.Ordinal
        );
        // What the summing finding says for the others stands in the matrix in their own words.
        Assert.Contains(
            Printed("and no own lock or tag of tech-05 on by then."),
            printed,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Cause_LockOffInTheMiddle_IsToldOnce()
    {
        var view = View(SampleJobs.Judge(SafeWorkSamples.LockOffAtWork));

        Assert.Single(
            view.DueCauses,
            cause => cause.Marked.Any(marked => marked.Told.Rule.Id.Text == "own-device-through-work")
        );
        Assert.All(
            view.DueCauses.Where(cause => cause.Cause.IsOfHands),
            cause => Assert.Contains("tech-01", cause.Cause.First.Statement, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Cause_TwoThingsThatOneActPutsRight_AreToldTogetherEachInItsWords()
    {
        var view = View(
            SampleJobs.Judge(
                SafeWorkSamples.Without(
                    SafeWorkSamples.ByTwo,
                    one => one.Kind is TimelineEventKind.AreaInspected or TimelineEventKind.PeopleClearChecked
                )
            )
        );

        var cause = Assert.Single(view.DueCauses);

        Assert.Equal(2, cause.Marked.Length);
        Assert.Equal(2, cause.Cause.Statements.Count());
    }

    [Fact]
    public void Cause_NoProcedure_IsToldOnce()
    {
        var lost = SampleJobs.Judge(
            SafeWorkSamples.ByTwo with
            {
                Machine = SafeWorkSamples.ByTwo.Machine with { Id = new("M-99") },
            }
        );

        var statements = View(lost).DueCauses.Select(cause => cause.Cause.First.Statement).ToList();

        Assert.Equal(statements.Distinct(StringComparer.Ordinal), statements);
    }

    /// <summary>The registers of a job name whoever approved a procedure as well: that is nobody of this job.</summary>
    [Fact]
    public void Registers_OfPeople_AreThoseWhomTheRecordNames()
    {
        var job = SampleJobs.Judge(SafeWorkSamples.ByTwo);
        var others = job
            .Context.People.Select(person => person.Id)
            .Where(person => !NamedInRecord.Has(job.Record, person))
            .ToList();

        var printed = Words(LayOut(job).Pages);

        Assert.NotEmpty(others);
        Assert.All(
            others,
            person => Assert.DoesNotContain(Printed($"{person.Text}, "), printed, StringComparison.Ordinal)
        );
        Assert.Contains(Printed("tech-05, authorised to lock out"), printed, StringComparison.Ordinal);
    }

    /// <summary>Whoever doubts a line must find the entries behind it, and the clause where a text is cited.</summary>
    [Fact]
    public void Duty_NotShown_NamesItsEventsInTheMatrix()
    {
        Assert.All(
            new[]
            {
                SafeWorkSamples.LockOffAtWork,
                SafeWorkSamples.SecondWithoutLock,
                SafeWorkSamples.Without(SafeWorkSamples.ByTwo, one => one.Lock is not null),
            },
            record =>
            {
                var view = View(SampleJobs.Judge(record));
                var missed = view.Marked.Where(one => one.Told.Finding.Verdict == Verdict.NotMet).ToList();

                Assert.NotEmpty(missed);
                Assert.All(
                    missed,
                    one =>
                        Assert.True(
                            one.Told.Finding.Evidence.Any(pointer => view.NumberOf(pointer) is not null),
                            one.Told.Finding.Statement
                        )
                );
            }
        );
    }

    [Fact]
    public void Duty_WithoutAnyEntry_SaysThatThereIsNone()
    {
        var nobody = SafeWorkSamples.ByTwo with { Timeline = [], People = [] };

        Assert.Contains(
            Printed("no such entry"),
            Words(LayOut(SampleJobs.Judge(nobody)).Pages),
            StringComparison.Ordinal
        );
    }
}
