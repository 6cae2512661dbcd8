using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;
using ServiceRules.Evidence.Log;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Tests.Ledger;

public sealed class FileRecordTests : IDisposable
{
    private readonly Desk _desk = new();

    public void Dispose() => _desk.Dispose();

    private static void Mend(JsonObject job) => job["units"]![0]!["entries"]![0]!["value"] = "3.81 mm";

    private static void LeaveOpen(JsonObject job)
    {
        job.Remove("signOff");
        job.Remove("followUp");
    }

    private FilingRefusal Refused(Assessed assessed) =>
        Assert.IsType<FilingOutcome.Refused>(new FileRecord(_desk.Open()).File(assessed, null)).Refusal;

    [Fact]
    public void File_NewRecord_FilesRulesRecordAndAssessmentUnderOneCheckpoint()
    {
        var assessed = Desk.Judged();

        var filed = _desk.File(assessed);

        Assert.Equal(
            [EntryKind.PackActivation, EntryKind.Record, EntryKind.Assessment],
            filed.Entries.Select(placed => placed.Entry.Entry.Kind)
        );
        Assert.Equal([0, 1, 2], filed.Entries.Select(placed => placed.Entry.Index));
        Assert.Equal(3, filed.Head.Size);
        Assert.Equal(filed.Head.Note, Assert.Single(_desk.Store.Outside));
        Assert.Empty(_desk.Verify().Faults);
    }

    [Fact]
    public void File_ByRulesThatOthersReplacedMeanwhile_DoesNotBringThemBack()
    {
        _desk.Store.MemoryPacks.Activate(new(0, "sha256:others", _desk.Now, "put in force by somebody"));

        var filed = _desk.File(Desk.Judged());

        Assert.Equal(
            [EntryKind.Record, EntryKind.Assessment],
            filed.Entries.Select(placed => placed.Entry.Entry.Kind)
        );
        Assert.Empty(_desk.Verify().Faults);
    }

    [Fact]
    public void File_NewRecord_NamesContentByHashAndPersonByPseudonym()
    {
        var assessed = Desk.Judged();

        var (record, assessment) = FileRecord.Parts(_desk.File(assessed));

        Assert.Equal(assessed.Evidence.Record.Hash.ToString(), record.Entry.Content);
        Assert.Equal(assessed.Evidence.Record.Bytes.Length, record.Entry.ContentBytes);
        Assert.Equal(_desk.Store.Pseudonyms["tech-02"], record.Entry.By);
        Assert.Equal(record.Entry.Content, assessment.Entry.Of);
        Assert.Null(assessment.Entry.By);
        Assert.Equal(_desk.Now, record.Entry.At);
        Assert.DoesNotContain(
            "tech-02",
            System.Text.Encoding.UTF8.GetString(record.Bytes.Span),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void File_NewRecord_KeepsEverythingThatReproducesTheVerdict()
    {
        var evidence = Desk.Judged().Evidence;
        _desk.File(Desk.Judged());

        Assert.All(
            new[] { evidence.Record, evidence.Context, evidence.Rules, evidence.Assessment },
            document =>
                Assert.Equal(document.Hash, ContentHash.Of(_desk.Store.Content(document.Hash)!.Value.Span))
        );
    }

    [Fact]
    public void File_SameRecordAgain_AddsNothingAndTellsWhereItStands()
    {
        _desk.File(Desk.Judged());

        var again = _desk.File(Desk.Judged());

        Assert.False(again.IsNew);
        Assert.Equal([1, 2], again.Entries.Select(placed => placed.Entry.Index));
        Assert.Equal(3, again.Head.Size);
        Assert.Single(_desk.Store.Outside);
    }

    [Fact]
    public void File_OtherContentUnderAClosedIdentity_IsRefusedAndNamesTheFirstDifference()
    {
        _desk.File(Desk.Judged());

        var refusal = Refused(Desk.Judged(Mend));

        Assert.Contains("`F-height-check` stands as entry 1", refusal.What, StringComparison.Ordinal);
        Assert.Contains("/units/0/entries/0/value", refusal.What, StringComparison.Ordinal);
        Assert.Equal(3, _desk.Store.Stored.Count);
    }

    [Fact]
    public void File_OpenJobFurtherOn_IsAFurtherVersion()
    {
        _desk.File(Desk.Judged(LeaveOpen));

        var (record, _) = FileRecord.Parts(_desk.File(Desk.Judged()));

        Assert.Equal(EntryKind.Record, record.Entry.Kind);
        Assert.Equal(3, record.Index);
        Assert.Empty(_desk.Verify().Faults);
    }

    [Theory]
    [InlineData("not JSON")]
    [InlineData("{}")]
    [InlineData(null)]
    public void File_OverAVersionWhoseKeptBytesWereChanged_IsRefused(string? spoilt)
    {
        var standing = Desk.Judged(LeaveOpen);
        _desk.File(standing);
        _desk.Store.Kept[standing.Evidence.Record.Hash.ToString()] = spoilt is null
            ? Desk.Judged().Evidence.Record.Bytes.ToArray()
            : System.Text.Encoding.UTF8.GetBytes(spoilt);

        var refusal = Refused(Desk.Judged());

        Assert.Contains("kept with other bytes than were filed", refusal.What, StringComparison.Ordinal);
        Assert.Equal(3, _desk.Store.Stored.Count);
    }

    [Fact]
    public void File_OverAVersionThatIsMissing_IsRefused()
    {
        var standing = Desk.Judged(LeaveOpen);
        _desk.File(standing);
        _desk.Store.Remove(standing.Evidence.Record.Hash);

        Assert.Contains("missing, and no erasure", Refused(Desk.Judged()).What, StringComparison.Ordinal);
    }

    [Fact]
    public void File_OpenJobWithAChangedReading_IsRefused()
    {
        _desk.File(Desk.Judged(LeaveOpen));

        var refusal = Refused(
            Desk.Judged(job =>
            {
                LeaveOpen(job);
                Mend(job);
            })
        );

        Assert.Contains("amendment", refusal.Accepted, StringComparison.Ordinal);
    }

    [Fact]
    public void Amend_AFiledRecord_SaysWhatItCorrectsWhyAndByWhom()
    {
        _desk.File(Desk.Judged());

        var (amended, _) = FileRecord.Parts(_desk.Amend(Desk.Judged(Mend), "lead-01", "misread the gauge"));

        Assert.Equal(EntryKind.Amendment, amended.Entry.Kind);
        Assert.Equal(1, amended.Entry.Corrects!.Index);
        Assert.Equal(Desk.Judged().Evidence.Record.Hash.ToString(), amended.Entry.Corrects.Content);
        Assert.Equal("misread the gauge", amended.Entry.Reason);
        Assert.Equal(_desk.Store.Pseudonyms["lead-01"], amended.Entry.By);
        Assert.Empty(_desk.Verify().Faults);
    }

    [Fact]
    public void Amend_BackToTheFirstVersion_IsANewEntry()
    {
        _desk.File(Desk.Judged());
        _desk.Amend(Desk.Judged(Mend), "lead-01", "misread the gauge");

        var (back, _) = FileRecord.Parts(_desk.Amend(Desk.Judged(), "lead-01", "it was right after all"));

        Assert.Equal(3, back.Entry.Corrects!.Index);
        Assert.Empty(_desk.Verify().Faults);
    }

    [Theory]
    [InlineData("lead-01", "misread", true)]
    [InlineData("lead-01", "the gauge was bent", false)]
    [InlineData("officer-01", "misread", false)]
    public void Amend_TheSameContentAgain_StandsOnlyForTheSameReasonAndPerson(
        string by,
        string reason,
        bool stands
    )
    {
        _desk.File(Desk.Judged());
        _desk.Amend(Desk.Judged(Mend), "lead-01", "misread");
        var size = _desk.Store.Stored.Count;

        var again = new FileRecord(_desk.Open()).Amend(Desk.Judged(Mend), new Correction(by, reason));

        Assert.Equal(stands, again is FilingOutcome.Filed { IsNew: false });
        Assert.Equal(!stands, again is FilingOutcome.Refused);
        Assert.Equal(size, _desk.Store.Stored.Count);
    }

    [Fact]
    public void Amend_WithTheContentThatWasFiledFirst_IsRefused()
    {
        _desk.File(Desk.Judged());

        var outcome = new FileRecord(_desk.Open()).Amend(Desk.Judged(), new Correction("lead-01", "why"));

        Assert.Contains(
            "nothing in it is corrected",
            Assert.IsType<FilingOutcome.Refused>(outcome).Refusal.What,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Amend_NothingFiled_IsRefused()
    {
        var outcome = new FileRecord(_desk.Open()).Amend(Desk.Judged(), new Correction("lead-01", "why"));

        Assert.IsType<FilingOutcome.Refused>(outcome);
        Assert.Empty(_desk.Store.Stored);
    }

    [Fact]
    public void Amend_ReasonThatNoEntryMayCarry_IsRefusedAndLeavesNothing()
    {
        _desk.File(Desk.Judged());
        var kept = _desk.Store.Kept.Count;

        var outcome = new FileRecord(_desk.Open()).Amend(
            Desk.Judged(Mend),
            new Correction("lead-01", "\u0007")
        );

        Assert.Contains(
            "/reason",
            Assert.IsType<FilingOutcome.Refused>(outcome).Refusal.What,
            StringComparison.Ordinal
        );
        Assert.Equal(3, _desk.Store.Stored.Count);
        Assert.Equal(kept, _desk.Store.Kept.Count);
        Assert.DoesNotContain("lead-01", _desk.Store.Pseudonyms.Keys);
    }

    [Fact]
    public void Proofs_OfAFiling_ProveBothEntriesUnderItsCheckpoint()
    {
        var ledger = _desk.Open();
        var filed = Assert.IsType<FilingOutcome.Filed>(new FileRecord(ledger).File(Desk.Judged(), null));

        var proofs = ledger.Proofs(filed);

        Assert.True(Proves(proofs.RecordEntry, proofs.RecordProof));
        Assert.True(Proves(proofs.AssessmentEntry, proofs.AssessmentProof));
        Assert.False(Proves(proofs.AssessmentEntry, proofs.RecordProof));
        Assert.True(NoteKey.TryFromPem("ledger.example", proofs.LogKeyPem, out var key, out _));
        Assert.Equal(_desk.Signer.Key, key);
    }

    [Fact]
    public void Proofs_OfAVersionThatAnotherFollowed_BringTheNewestAlong()
    {
        var first = Desk.Judged();
        var alone = _desk.File(first);
        Assert.Null(_desk.Open().Proofs(alone).Newer);
        var (amended, _) = FileRecord.Parts(_desk.Amend(Desk.Judged(Mend), "lead-01", "misread"));
        var ledger = _desk.Open();
        var again = Assert.IsType<FilingOutcome.Filed>(new FileRecord(ledger).File(first, null));

        var newer = ledger.Proofs(again).Newer;

        Assert.NotNull(newer);
        Assert.True(newer.Entry.Span.SequenceEqual(amended.Bytes.Span));
        Assert.True(Proves(newer.Entry, newer.Proof));
    }

    [Fact]
    public void FileReport_OnAFiledAssessment_NamesIt()
    {
        var assessed = Desk.Judged();
        var ledger = _desk.Open();
        Assert.IsType<FilingOutcome.Refused>(
            new FileReport(ledger).File(assessed, "%PDF-1.7 early"u8.ToArray(), null)
        );
        _desk.File(assessed);

        var filed = Assert.IsType<FilingOutcome.Filed>(
            new FileReport(_desk.Open()).File(assessed, "%PDF-1.7 report"u8.ToArray(), null)
        );

        Assert.Equal(assessed.Evidence.Assessment.Hash.ToString(), filed.Entries.Single().Entry.Entry.Of);
        Assert.Empty(_desk.Verify().Faults);
    }

    [Fact]
    public void Tell_AnAmendedRecord_TellsVersionsChangesAndVerdicts()
    {
        _desk.File(Desk.Judged());
        _desk.Now = _desk.Now.AddDays(2);
        _desk.Amend(
            Desk.Judged(job => job["units"]![0]!["entries"]![0]!["value"] = "4.40 mm"),
            "lead-01",
            "the gauge read 4.40"
        );

        var versions = new TellSubject(_desk.Store).Tell(Desk.Job);

        Assert.Equal(2, versions.Length);
        Assert.Equal(("tech-02", "lead-01"), (versions[0].Person, versions[1].Person));
        Assert.Equal(
            new JsonChange("/units/0/entries/0/value", "\"3.80 mm\"", "\"4.40 mm\""),
            Assert.Single(versions[1].Changes!.Value)
        );
        Assert.Equal(Disposition.Release, versions[0].Assessments.Single().Assessment!.Job.Disposition);
        Assert.Contains(
            versions[1].Verdicts,
            change => change is { Subject: "job", Rule: null, Old: "release", New: "hold" }
        );
        Assert.Contains(
            versions[1].Verdicts,
            change => change is { Subject: "unit/U-02-1", Rule: "height-on-target", Old: "met" }
        );
    }

    private static bool Proves(ReadOnlyMemory<byte> entry, string proof) =>
        TlogProof.TryParse(System.Text.Encoding.UTF8.GetBytes(proof), out var read, out _)
        && read.Proves(MerkleTree.LeafHash(entry.Span));
}
