using ServiceRules.Application.Reports;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>Reports of records that amend others, or that others amend.</summary>
public sealed partial class LogInclusionTests
{
    private static LedgerEntry Amending(long index) =>
        SampleLog.OfRecord(Job) with
        {
            Kind = EntryKind.Amendment,
            Corrects = new CorrectedEntry(index, SampleLog.OfAssessment(Job).Content),
            Reason = "gauge read on the wrong face",
        };

    [Fact]
    public void Verify_AmendedRecord_SaysWhatItAmendsOnPageOneAndInItsPoint()
    {
        var file = Write(_log.File(Amending(2), SampleLog.OfAssessment(Job)));

        var verified = Verify(file);

        Assert.True(verified.Standing == ReportStanding.Genuine, string.Join('\n', verified.Points));
        Assert.Contains(
            "the record amends entry 2 (gauge read on the wrong face)",
            LogPoint(verified).Told,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void LayOut_AmendedAndSuperseded_PrintsBothOnPageOne()
    {
        var first = FirstPage(Superseded(_log.File(Amending(2), SampleLog.OfAssessment(Job))));

        foreach (
            var part in (string[])
                [
                    "entry 2 of the log (gauge read on the wrong face)",
                    "entry 7 of the log is a newer version of this record",
                ]
        )
        {
            Assert.Contains(Layout.Printable.Of(part), first, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Verify_SupersededWhenIssued_SaysSo()
    {
        var verified = Verify(Write(Superseded(_log.File(Job))));

        Assert.True(verified.Standing == ReportStanding.Genuine, string.Join('\n', verified.Points));
        Assert.Contains(
            "superseded: entry 7 held a newer version of the record",
            LogPoint(verified).Told,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(0)]
    [InlineData(5)]
    [InlineData(6)]
    public void Verify_NewerVersionThatIsNone_Fails(int index)
    {
        var proofs = _log.File(Job);

        AssertFails("is of no newer version", Write(proofs with { Newer = _log.Newer(index) }));
    }

    /// <summary>Amends the record in the log, and proves all of it anew under the checkpoint after that.</summary>
    private FilingProofs Superseded(FilingProofs proofs)
    {
        var newer = _log.Append(Amending(5));
        return _log.Proved(proofs, 5, 6) with { Newer = _log.Newer(newer) };
    }
}
