using System.Globalization;
using ServiceRules.Application.Reports;
using ServiceRules.Formats.Ledger;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>Reports of records that somebody sent to a service that knew who sends.</summary>
public sealed partial class LogInclusionTests
{
    private const string Account = "account:0123456789abcdef";
    private const string Pseudonym = "p-0123456789abcdef";

    private FilingProofs Sent(EntrySender? sender) =>
        _log.File(SampleLog.OfRecord(Job) with { Sender = sender }, SampleLog.OfAssessment(Job));

    private static string Performing => Job.Record.People[0].Id.Text;

    [Fact]
    public void LayOut_SentByAnAccount_SaysWhoHadSignedInForWhomAndNoMore()
    {
        var first = FirstPage(Sent(new(Account, Pseudonym, "/people/0/id")));

        Assert.Contains(
            Layout.Printable.Of(
                $"filed over the service by {Account}, which had signed in and stands for {Performing}; who did what is as entered"
            ),
            first,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(Layout.Printable.Of("no sign-in"), first, StringComparison.Ordinal);
        Assert.DoesNotContain(Pseudonym, first, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Account, Pseudonym, $"by {Account}, which had signed in and stands for {Pseudonym}; who")]
    [InlineData(
        Account,
        null,
        $"by {Account}, which had signed in and stands for nobody in the register; who"
    )]
    [InlineData(
        "key:0123456789abcdef",
        null,
        "with key:0123456789abcdef, which stands for nobody in the register; who"
    )]
    public void LayOut_SentByOthers_SaysWhatTheEntrySays(string name, string? person, string told) =>
        Assert.Contains(
            Layout.Printable.Of($"filed over the service {told}"),
            FirstPage(Sent(new(name, person, null))),
            StringComparison.Ordinal
        );

    [Fact]
    public void LayOut_EntryWithoutSender_SaysThatNoSignInWasChecked() =>
        Assert.Contains(
            Layout.Printable.Of("as entered; no sign-in was checked."),
            FirstPage(Sent(null)),
            StringComparison.Ordinal
        );

    [Fact]
    public void Verify_SentByAnAccount_IsGenuineAndSaysSoInItsPoint()
    {
        var verified = Verify(Write(Sent(new(Account, Pseudonym, "/people/0/id"))));

        Assert.True(verified.Standing == ReportStanding.Genuine, string.Join('\n', verified.Points));
        Assert.Contains(
            $"filed over the service by {Account}",
            LogPoint(verified).Told,
            StringComparison.Ordinal
        );
    }

    /// <summary>Truly signed by the key that is trusted: only what the entry says is told otherwise on the pages.</summary>
    [Fact]
    public void Verify_PagesThatSayOfTheSenderWhatTheEntryDoesNot_AreNotGenuine()
    {
        var sender = new EntrySender(Account, Pseudonym, "/people/0/id");
        var known = Sent(sender);
        var told = FiledIn.Read(known).Filed!;

        Assert.Equal(ReportStanding.Genuine, Verify(Drawn(told, known)).Standing);
        AssertPagesFail(Drawn(told with { Sender = null }, known));
        AssertPagesFail(Drawn(told with { Sender = sender with { Place = "/people/1/id" } }, known));
        AssertPagesFail(
            Drawn(told with { Sender = sender with { Name = "account:fedcba9876543210" } }, known)
        );
    }

    [Fact]
    public void Verify_PagesThatSaySomebodyHadSignedInWhereNobodyWasAsked_AreNotGenuine()
    {
        var unknown = Sent(null);
        var told = FiledIn.Read(unknown).Filed!;

        Assert.Equal(ReportStanding.Genuine, Verify(Drawn(told, unknown)).Standing);
        AssertPagesFail(Drawn(told with { Sender = new(Account, Pseudonym, "/people/0/id") }, unknown));
    }

    [Theory]
    [InlineData("/people/99/id")]
    [InlineData("/timeline/9999/by")]
    public void Verify_SenderAtAPlaceOfNobody_Fails(string place) =>
        AssertFails("where it names nobody", Write(Sent(new(Account, Pseudonym, place))));

    /// <summary>The pages that one filing gives, with the proofs of what was filed attached.</summary>
    private static byte[] Drawn(FiledIn pages, FilingProofs attached) =>
        PdfReportWriter.Write(
            JobReport.LayOut(Job, ReportTerms.Default, SampleReport.Statement, FontMeasure.Shipped, pages),
            new DocumentTitle(
                JobReport.TitleOf(Job.Record.Id.Text),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Machine {Job.Record.Machine.Id.Text}, {Job.Record.Date:yyyy-MM-dd}"
                ),
                ReportTerms.Default.Language,
                SampleReport.IssuedAt
            ),
            ReportAttachments.Of(Job.Evidence, attached),
            SampleReport.Key
        );

    private static void AssertPagesFail(byte[] file)
    {
        var verified = Verify(file);

        Assert.Equal(ReportStanding.NotGenuine, verified.Standing);
        Assert.Equal(
            PointResult.Failed,
            verified.Points.Single(point => point.Name == VerifyReport.Drawn).Result
        );
    }
}
