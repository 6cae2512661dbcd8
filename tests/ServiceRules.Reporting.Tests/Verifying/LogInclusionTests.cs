using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Evidence.Log;
using ServiceRules.Formats.Ledger;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Tests.Reports;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>Reports that were filed in a log, and such as only say so; every one is truly signed.</summary>
public sealed partial class LogInclusionTests : IDisposable
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

    private static void AssertSettlesNothing(string told, byte[] file, LogDemand demand)
    {
        var verified = Verify(file, Asking(demand));

        var point = Assert.Single(verified.Points, one => one.Result == PointResult.NotEstablished);
        Assert.Equal(VerifyReport.Filed, point.Name);
        Assert.Contains(told, point.Told, StringComparison.Ordinal);
        Assert.DoesNotContain(verified.Points, one => one.Result == PointResult.Failed);
        Assert.Equal(ReportStanding.NotEstablished, verified.Standing);
    }

    private static GivenLogKey Given(string text) =>
        GivenLogKey.TryParse(text, out var key, out var fault)
            ? key
            : throw new ArgumentException($"{fault}");

    private static GivenReportProof Proof(byte[] bytes) =>
        GivenReportProof.TryParse(bytes, out var proof, out var fault)
            ? proof
            : throw new ArgumentException(fault);

    private static SignedCheckpoint Head(byte[] bytes) =>
        SignedCheckpoint.TryParse(bytes, out var head, out var faults)
            ? head
            : throw new ArgumentException($"{faults[0]}");

    private static GrowthProof Growth(byte[] bytes) =>
        GrowthProof.TryParse(bytes, out var growth, out var faults)
            ? growth
            : throw new ArgumentException($"{faults[0]}");

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
                    Key = Given(_log.Key.ToPem()),
                    Proof = Proof(proof),
                    Checkpoint = Head(_log.Checkpoint()),
                    Growth = Growth(_log.Growth(size)),
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
        AssertFails("was not filed in a log", report, new LogDemand { Key = Given(_log.Key.ToPem()) });
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
            Verify(report, Asking(new LogDemand { Key = Given(_log.Key + "\n") })).Standing
        );
        AssertFails(
            $"the log key given (of `{other.Key.Name}`, id {other.Key.IdText}) is not the one of this report",
            report,
            new LogDemand { Key = Given(other.Key.ToString()) }
        );
        AssertFails(
            $"the log key given (id {other.Key.IdText}, in PEM, which names no log) is not the one of this report (of `{_log.Key.Name}`, id {_log.Key.IdText})",
            report,
            new LogDemand { Key = Given(other.Key.ToPem()) }
        );
    }

    [Fact]
    public void TryParse_WhatIsNoLogKey_TellsWhatIsAccepted()
    {
        Assert.False(GivenLogKey.TryParse("no key", out _, out var fault));

        Assert.Contains("line 1: `no key`; accepted: a verifier key", $"{fault}", StringComparison.Ordinal);
        Assert.Contains("in PEM", $"{fault}", StringComparison.Ordinal);
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
    public void Verify_ProofOfAnotherFile_SettlesNothing()
    {
        var proofs = _log.File(Job);
        var (report, again) = (Write(proofs), Write(proofs));
        var proof = _log.FileReport(Job, again);

        AssertSettlesNothing("about another file", report, new LogDemand { Proof = Proof(proof) });
        AssertSettlesNothing(
            "which is of no report",
            report,
            new LogDemand { Proof = Proof(_log.ProofOf(5)) }
        );
    }

    [Fact]
    public void Verify_ProofThatLeadsElsewhere_SettlesNothing()
    {
        var report = Write(_log.File(Job));
        var proof = Encoding.UTF8.GetString(_log.FileReport(Job, report));

        AssertSettlesNothing(
            "does not lead from entry 6",
            report,
            new LogDemand { Proof = Proof(Encoding.UTF8.GetBytes(Moved(proof, "index 7", "index 6"))) }
        );
    }

    [Fact]
    public void TryParse_WhatIsNoReportProof_TellsWhereAndWhatIsAccepted()
    {
        var proofs = _log.File(Job);

        Assert.False(
            GivenReportProof.TryParse(Encoding.UTF8.GetBytes(proofs.RecordProof), out _, out var bare)
        );
        Assert.False(GivenReportProof.TryParse("x\n"u8.ToArray(), out _, out var none));

        Assert.Contains("line 2: no line `extra`; accepted:", bare, StringComparison.Ordinal);
        Assert.Contains("line 1: `x`; accepted:", none, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_LaterCheckpoint_MustBeLedToByGrowthFromTheReportsOwn()
    {
        var report = Write(_log.File(Job));
        var (size, same) = (_log.Size, _log.Checkpoint());
        _log.Append(SampleLog.OfRecord(Job));
        var later = Head(_log.Checkpoint());
        var between = Growth(_log.Growth(size));
        _log.Append(SampleLog.OfRecord(Job));
        using var other = new SampleLog(others: 20);

        Assert.Equal(
            ReportStanding.Genuine,
            Verify(report, Asking(new LogDemand { Checkpoint = Head(same) })).Standing
        );
        AssertSettlesNothing(
            $"alone settles nothing; accepted: the proof that the log only grew from {size} to {size + 1} entries",
            report,
            new LogDemand { Checkpoint = later }
        );
        AssertSettlesNothing(
            $"begins at {size - 1} entries, the report's checkpoint is of {size}",
            report,
            new LogDemand { Checkpoint = later, Growth = Growth(_log.Growth(size - 1)) }
        );
        AssertSettlesNothing(
            "it is of another checkpoint, or the log's history was rewritten",
            report,
            new LogDemand { Checkpoint = Head(_log.Checkpoint()), Growth = between }
        );
        AssertSettlesNothing(
            "is not signed by the log's key",
            report,
            new LogDemand { Checkpoint = Head(other.Checkpoint()), Growth = Growth(other.Growth(size)) }
        );
    }

    [Fact]
    public void Verify_CheckpointsOfOneKeyThatCannotBeOfOneLog_SayThatItWasRewritten()
    {
        var report = Write(_log.File(Job));
        var size = _log.Size;
        using var rewritten = _log.Rewritten(others: 7);
        var same = Head(rewritten.Checkpoint());
        var proof = Proof(rewritten.ProofOf(1));
        rewritten.Append(SampleLog.OfRecord(Job));

        Assert.Equal(size, same.Head.Size);
        AssertFails(
            $"the checkpoint given has another root at {size} entries",
            report,
            new LogDemand { Checkpoint = same }
        );
        AssertFails(
            $"the proof given has another root at {size} entries",
            report,
            new LogDemand { Proof = proof }
        );
        AssertFails(
            "had another root at 7 entries than the report's checkpoint, and its key signed both: the log's history was rewritten",
            report,
            new LogDemand
            {
                Checkpoint = Head(rewritten.Checkpoint()),
                Growth = Growth(rewritten.Growth(size)),
            }
        );
    }

    [Fact]
    public void Verify_EarlierCheckpoint_SettlesNothing()
    {
        var early = Head(_log.Checkpoint());

        AssertSettlesNothing(
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

    private static string FirstPage(FilingProofs proofs)
    {
        var document = JobReport.LayOut(
            Job,
            ReportTerms.Default,
            SampleReport.Statement,
            Reporting.Pdf.FontMeasure.Shipped,
            FiledIn.Read(proofs).Filed
        );
        return Layout.Printable.Of(
            string.Concat(
                new Reporting.Layout.PlacedDocument([document.Pages[0]]).Texts().Select(text => text.Content)
            )
        );
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

        var shown = string.Concat(document.Texts().Select(text => text.Content));
        foreach (
            var part in (string[])[_log.Key.Name, filed!.Head.Root.ToString(), _log.Key.IdText, "7 entries"]
        )
        {
            Assert.Contains(Layout.Printable.Of(part), Layout.Printable.Of(shown), StringComparison.Ordinal);
        }
    }

    private static string Moved(string proof, string from, string to) =>
        proof.Replace(from, to, StringComparison.Ordinal);
}
