using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Formats.Ledger;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Tests.Reports;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>Reports that were filed in a log, and such as only say so; every one is truly signed.</summary>
public sealed class LogInclusionTests : IDisposable
{
    private static readonly Assessed Job = SampleJobs.HeightCheckOfTwelve;

    private readonly SampleLog _log = new();

    public void Dispose() => _log.Dispose();

    private static byte[] Write(FilingProofs? proofs) =>
        JobReport.Write(Job, ReportTerms.Default, SampleReport.Key, SampleReport.IssuedAt, proofs: proofs);

    private static VerifiedReport Verify(byte[] file, ReportDemand? demand = null) =>
        new VerifyReport(
            new PdfReportReader([SampleReport.Key.Certificate]),
            new Judge(),
            new ReportRedrawing(),
            demand
        ).Verify(file);

    private static ReportDemand Asking(LogDemand log) => new() { Log = log };

    private static ReportPoint LogPoint(VerifiedReport report) =>
        report.Points.Single(point => point.Name == VerifyReport.Filed);

    private static void AssertFails(string told, byte[] file, LogDemand? demand = null)
    {
        var verified = Verify(file, Asking(demand ?? LogDemand.None));

        var failed = Assert.Single(verified.Points, point => point.Result == PointResult.Failed);
        Assert.Equal(VerifyReport.Filed, failed.Name);
        Assert.Contains(told, failed.Told, StringComparison.Ordinal);
        Assert.Equal(ReportStanding.NotGenuine, verified.Standing);
    }

    [Fact]
    public void Verify_FiledReport_IsGenuineAndTellsWhere()
    {
        var verified = Verify(Write(_log.File(Job)));

        Assert.True(verified.Standing == ReportStanding.Genuine, string.Join('\n', verified.Points));
        var told = LogPoint(verified).Told;
        Assert.Contains(
            "entries 5 and 6 of the log `alder-reach.example/log`, 7 entries",
            told,
            StringComparison.Ordinal
        );
        Assert.Contains(
            $"log key {_log.Key.IdText} as the report carries it",
            told,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Verify_EverythingGiven_IsGenuineAndSaysSo()
    {
        var report = Write(_log.File(Job));
        var size = _log.Size;
        var proof = _log.FileReport(Job, report);
        _log.Append(SampleLog.OfRecord(Job));

        var verified = Verify(
            report,
            new ReportDemand
            {
                Required = [VerifyReport.Filed],
                Log = new LogDemand
                {
                    Key = _log.Key.ToPem(),
                    Proof = proof,
                    Checkpoint = _log.Checkpoint(),
                    Growth = _log.Growth(size),
                },
            }
        );

        Assert.True(verified.Standing == ReportStanding.Genuine, string.Join('\n', verified.Points));
        Assert.Contains(
            "this file is entry 7, of 8 entries by then",
            LogPoint(verified).Told,
            StringComparison.Ordinal
        );
        Assert.Contains("9 entries, begins with it", LogPoint(verified).Told, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_NotFiled_IsGenuineAndSaysSoUnlessALogIsAskedFor()
    {
        var report = Write(null);

        var verified = Verify(report);

        Assert.Equal(ReportStanding.Genuine, verified.Standing);
        Assert.Equal(PointResult.NotClaimed, LogPoint(verified).Result);
        Assert.Equal(
            ReportStanding.NotGenuine,
            Verify(report, new ReportDemand { Required = [VerifyReport.Filed] }).Standing
        );
        AssertFails("was not filed in a log", report, new LogDemand { Key = _log.Key.ToPem() });
    }

    [Theory]
    [InlineData(VerifyReport.Timestamp)]
    [InlineData("a point that no reader knows")]
    public void Verify_AskedForWhatTheReportLacks_FailsByThatPoint(string name)
    {
        var verified = Verify(Write(null), new ReportDemand { Required = [name] });

        var failed = Assert.Single(verified.Points, point => point.Result == PointResult.Failed);
        Assert.Equal(name, failed.Name);
        Assert.Contains("it was asked for", failed.Told, StringComparison.Ordinal);
        Assert.Equal(ReportStanding.NotGenuine, verified.Standing);
    }

    [Fact]
    public void Verify_VerifierKeyGiven_IsHeldAgainstTheOneInTheReport()
    {
        var report = Write(_log.File(Job));
        using var other = new SampleLog();

        Assert.Equal(
            ReportStanding.Genuine,
            Verify(report, Asking(new LogDemand { Key = _log.Key + "\n" })).Standing
        );
        AssertFails("is not the one of this report", report, new LogDemand { Key = other.Key.ToString() });
        AssertFails("is not the one of this report", report, new LogDemand { Key = other.Key.ToPem() });
        AssertFails("cannot be used", report, new LogDemand { Key = "no key" });
    }

    [Fact]
    public void Verify_CheckpointByAnotherKey_Fails()
    {
        using var other = new SampleLog();
        var proofs = _log.File(Job) with { LogKeyPem = other.Key.ToPem() };

        AssertFails("is not signed by the log's key", Write(proofs));
    }

    [Fact]
    public void Verify_EntryThatIsNotInTheTree_Fails()
    {
        var proofs = _log.File(Job);
        using var other = new SampleLog(others: 3);
        var elsewhere = other.File(Job);

        AssertFails(
            "does not stand at place",
            Write(proofs with { RecordProof = Moved(proofs.RecordProof, "index 5", "index 4") })
        );
        // Not even the writer takes these: no place in one log could be printed.
        var refused = Assert.Throws<InvalidOperationException>(() =>
            Write(proofs with { RecordProof = elsewhere.RecordProof })
        );
        Assert.Contains("lead to different checkpoints", refused.Message, StringComparison.Ordinal);
    }

    public static TheoryData<string, string> Misfilings =>
        new()
        {
            { "another record", "is about other bytes" },
            { "another job", "is about `J-9999`" },
            { "as an assessment", "is an entry of another kind" },
            { "of another record", "names another document" },
            { "another length", "is about other bytes" },
        };

    [Theory]
    [MemberData(nameof(Misfilings))]
    public void Verify_EntryAboutSomethingElse_Fails(string how, string told)
    {
        var (record, assessment) = (SampleLog.OfRecord(Job), SampleLog.OfAssessment(Job));
        var proofs = how switch
        {
            "another record" => _log.File(record with { Content = assessment.Content }, assessment),
            "another job" => _log.File(record with { Subject = "J-9999" }, assessment),
            "as an assessment" => _log.File(
                record with
                {
                    Kind = EntryKind.Assessment,
                    Of = record.Content,
                },
                assessment
            ),
            "of another record" => _log.File(record, assessment with { Of = assessment.Content }),
            _ => _log.File(record with { ContentBytes = 1 }, assessment),
        };

        AssertFails(told, Write(proofs));
    }

    [Fact]
    public void Verify_EntryInAnotherSpelling_Fails()
    {
        var proofs = _log.File(Job);
        var spaced = Encoding.UTF8.GetBytes(
            Encoding.UTF8.GetString(proofs.RecordEntry.Span).Replace(",\"", ", \"", StringComparison.Ordinal)
        );

        AssertFails("not the canonical spelling", Write(proofs with { RecordEntry = spaced }));
    }

    [Fact]
    public void Verify_ProofOfAnotherFile_Fails()
    {
        var proofs = _log.File(Job);
        var (report, again) = (Write(proofs), Write(proofs));
        var proof = _log.FileReport(Job, again);

        AssertFails("is about other bytes", report, new LogDemand { Proof = proof });
        AssertFails("is an entry of another kind", report, new LogDemand { Proof = _log.ProofOf(5) });
        AssertFails(
            "does not bring its entry",
            report,
            new LogDemand { Proof = Encoding.UTF8.GetBytes(proofs.RecordProof) }
        );
        AssertFails("the report's own proof: line 1", report, new LogDemand { Proof = "x\n"u8.ToArray() });
    }

    [Fact]
    public void Verify_LaterCheckpoint_MustContinueTheReportsOwn()
    {
        var report = Write(_log.File(Job));
        var (size, same) = (_log.Size, _log.Checkpoint());
        _log.Append(SampleLog.OfRecord(Job));
        using var rewritten = new SampleLog(others: 20);

        Assert.Equal(
            ReportStanding.Genuine,
            Verify(report, Asking(new LogDemand { Checkpoint = same })).Standing
        );
        AssertFails(
            "with the proof that the log only grew",
            report,
            new LogDemand { Checkpoint = _log.Checkpoint() }
        );
        AssertFails(
            "its history was rewritten",
            report,
            new LogDemand { Checkpoint = _log.Checkpoint(), Growth = _log.Growth(size - 1) }
        );
        AssertFails(
            "did not sign it",
            report,
            new LogDemand { Checkpoint = rewritten.Checkpoint(), Growth = rewritten.Growth(size) }
        );
    }

    [Fact]
    public void Verify_EarlierCheckpoint_IsNoAnswer()
    {
        var early = _log.Checkpoint();

        AssertFails(
            "accepted: one of the same size or later",
            Write(_log.File(Job)),
            new LogDemand { Checkpoint = early }
        );
    }

    [Fact]
    public void Verify_ProofThatIsNoProof_FailsAndNeverThrows()
    {
        var proofs = _log.File(Job);
        var report = Write(proofs);
        var forged = new ForgedReport(report);
        var file = forged.Referred(forged.Find("/F(record.proof)"), "F");
        forged.SetStream(
            file,
            forged.StreamOf(file).Replace("tlog-proof@v1", "tlog-proof@v9", StringComparison.Ordinal)
        );

        var verified = Verify(forged.Sign(SampleReport.Key));

        Assert.Equal(ReportStanding.NotGenuine, verified.Standing);
    }

    [Fact]
    public void LayOut_FiledReport_PrintsWhereTheLogStands()
    {
        var proofs = _log.File(Job);
        var (filed, _) = FiledIn.Read(proofs);

        var document = JobReport.LayOut(
            Job,
            ReportTerms.Default,
            SampleReport.Statement,
            Reporting.Pdf.FontMeasure.Shipped,
            filed
        );

        var first = string.Concat(
            new Reporting.Layout.PlacedDocument([document.Pages[0]]).Texts().Select(text => text.Content)
        );
        Assert.Single(document.Pages);
        foreach (
            var part in (string[])[_log.Key.Name, filed!.Head.Root.ToString(), _log.Key.IdText, "7 entries"]
        )
        {
            Assert.Contains(Layout.Printable.Of(part), Layout.Printable.Of(first), StringComparison.Ordinal);
        }
    }

    private static string Moved(string proof, string from, string to) =>
        proof.Replace(from, to, StringComparison.Ordinal);
}
