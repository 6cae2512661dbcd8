using System.Text;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Tests.Ledger;

/// <summary>A database put back, cut, or written anew, under the checkpoints that lie outside it.</summary>
public sealed class LedgerHistoryTests : IDisposable
{
    private readonly Desk _desk = new();

    public void Dispose() => _desk.Dispose();

    private void FileJobs(int count, int from = 1)
    {
        for (var job = from; job < from + count; job++)
        {
            _desk.File(Desk.Judged(id: $"J-{job}"));
        }
    }

    private string[] CodesAtOpening() => [.. _desk.FaultsAtOpening().Select(fault => fault.Code).Distinct()];

    private string[] CodesFound() => [.. _desk.Verify().Faults.Select(fault => fault.Code).Distinct()];

    [Fact]
    public void Open_EmptyLedger_IsGoodAndHasNoHead()
    {
        Assert.Null(_desk.Open().Head);
        Assert.Empty(_desk.Verify().Faults);
    }

    [Fact]
    public void Open_OlderDatabaseUnderNewerCheckpoints_NamesWhatIsMissing()
    {
        FileJobs(2);
        var older = _desk.Store.Copy();
        FileJobs(3, 3);
        _desk.Store.Restore(older);

        var fault = Assert.Single(_desk.FaultsAtOpening());

        Assert.Equal(LedgerFaultCode.Shorter, fault.Code);
        Assert.Equal(
            "it says size 11, here it is 5: entries 5 to 10 are missing (2 more checkpoints say so)",
            fault.Told
        );
        Assert.Contains(LedgerFaultCode.Shorter, CodesFound());
    }

    [Fact]
    public void Open_EmptyDatabaseUnderCheckpoints_IsRefused()
    {
        FileJobs(1);
        _desk.Store.Restore(new MemoryLedger());

        Assert.Equal([LedgerFaultCode.Shorter], CodesAtOpening());
    }

    [Fact]
    public void Open_OlderDatabaseThatWentOnOtherwise_IsAnotherHistory()
    {
        FileJobs(2);
        var older = _desk.Store.Copy();
        FileJobs(1, 3);
        var outside = _desk.Store.Outside.ToList();
        _desk.Store.Restore(older);
        _desk.Store.Outside.RemoveAt(2);
        FileJobs(1, 8);
        _desk.Store.Outside.Clear();
        _desk.Store.Outside.AddRange(outside);

        var fault = Assert.Single(_desk.FaultsAtOpening());

        Assert.Equal(LedgerFaultCode.Different, fault.Code);
        Assert.Contains("entries 5 to 6 were changed, or are others", fault.Told, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_LastEntriesDeleted_IsRefused()
    {
        FileJobs(2);
        _desk.Store.Stored.RemoveAt(_desk.Store.Stored.Count - 1);

        Assert.Equal([LedgerFaultCode.Head, LedgerFaultCode.Shorter], CodesAtOpening());
    }

    [Fact]
    public void Open_EntryInTheMiddleDeleted_IsRefused()
    {
        FileJobs(2);
        _desk.Store.Stored.RemoveAt(1);

        Assert.Contains(LedgerFaultCode.EntryMissing, CodesAtOpening());
    }

    [Fact]
    public void Open_OneByteOfAnEntryChanged_IsAnotherHistory()
    {
        FileJobs(2);
        var bytes = Encoding
            .UTF8.GetString(_desk.Store.Stored[1].Bytes.Span)
            .Replace("2026-04-13", "2026-04-12", StringComparison.Ordinal);
        _desk.Store.Stored[1] = new StoredEntry(1, Encoding.UTF8.GetBytes(bytes));

        Assert.Equal([LedgerFaultCode.Head, LedgerFaultCode.Different], CodesAtOpening());
        Assert.Contains(
            "entries 0 to 2 were changed",
            _desk.FaultsAtOpening()[^1].Told,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Open_StoredHeadChanged_IsRefused()
    {
        FileJobs(1);
        _desk.Store.Head = _desk.Store.Head! with { Root = MerkleTree.EmptyRoot };

        Assert.Equal([LedgerFaultCode.Head], CodesAtOpening());
    }

    [Fact]
    public void Open_StoredHeadOfAnotherSize_IsRefused()
    {
        FileJobs(1);
        _desk.Store.Head = _desk.Store.Head! with { Size = 2 };

        Assert.Equal([LedgerFaultCode.Head], CodesAtOpening());
    }

    [Fact]
    public void Open_CheckpointOfAnotherKeyOutside_IsRefused()
    {
        FileJobs(1);
        using var other = new Desk();
        other.File(Desk.Judged());
        _desk.Store.Outside.Add(other.Store.Outside[0]);

        Assert.Equal([LedgerFaultCode.Checkpoint], CodesAtOpening());
    }

    [Fact]
    public void Open_CheckpointNotKeptOutsideYet_IsKeptNow()
    {
        FileJobs(2);
        _desk.Store.Outside.RemoveAt(1);

        _desk.Open();

        Assert.Equal(_desk.Store.Notes, _desk.Store.Outside);
    }

    [Fact]
    public void Open_NothingOutside_SaysThatNothingSpeaksForIt()
    {
        FileJobs(1);
        _desk.Store.Outside.Clear();

        var opened = Assert.IsType<LedgerOpening.Opened>(
            OpenLedger.Open(_desk.Store, _desk.Store, _desk.Signer, _desk)
        );

        Assert.Contains("no checkpoint", Assert.Single(opened.Remarks), StringComparison.Ordinal);
    }

    [Fact]
    public void Open_NothingOutsideOfWhatWasFiledTwice_IsRefusedUnlessSomebodyAnswersForIt()
    {
        FileJobs(2);
        _desk.Store.Outside.Clear();

        Assert.Equal([LedgerFaultCode.CheckpointMissing], CodesAtOpening());
        Assert.Empty(_desk.Store.Outside);

        Assert.IsType<LedgerOpening.Opened>(
            OpenLedger.Open(_desk.Store, _desk.Store, _desk.Signer, _desk, acceptsMissing: true)
        );
        Assert.Empty(CodesAtOpening());
    }

    [Fact]
    public void File_AfterAnotherProcessFiled_GoesOnFromThere()
    {
        var early = _desk.Open();
        FileJobs(2);

        var filed = Assert.IsType<FilingOutcome.Filed>(
            new FileRecord(early).File(Desk.Judged(id: "J-3"), null)
        );

        Assert.Equal(7, filed.Head.Size);
        Assert.Empty(_desk.Verify().Faults);
    }

    [Fact]
    public void File_DatabasePutBackWhileOpen_IsBrokenAndAddsNothing()
    {
        FileJobs(1);
        var older = _desk.Store.Copy();
        FileJobs(1, 2);
        var ledger = _desk.Open();
        _desk.Store.Restore(older);

        var outcome = new FileRecord(ledger).File(Desk.Judged(id: "J-9"), null);

        Assert.Equal(LedgerFaultCode.Shorter, Assert.IsType<FilingOutcome.Broken>(outcome).Fault.Code);
        Assert.Equal(3, _desk.Store.Stored.Count);
    }

    [Fact]
    public void Verify_OneContentChanged_NamesEveryEntryThatRestsOnItOnce()
    {
        FileJobs(1);
        var record = Desk.Judged(id: "J-1").Evidence.Record.Hash;
        _desk.Store.Kept[record.ToString()][10] ^= 1;

        var fault = Assert.Single(_desk.Verify().Faults);

        Assert.Equal((LedgerFaultCode.ContentChanged, "entry 1"), (fault.Code, fault.Where));
    }

    [Fact]
    public void Verify_ContextOfAnAssessmentGone_IsNamed()
    {
        FileJobs(1);
        _desk.Store.Kept.Remove(Desk.Judged(id: "J-1").Evidence.Context.Hash.ToString());

        var fault = Assert.Single(_desk.Verify().Faults);

        Assert.Equal((LedgerFaultCode.ContentMissing, "entry 2, its context"), (fault.Code, fault.Where));
    }

    [Fact]
    public void Verify_SeveralThingsWrong_NamesThemAll()
    {
        FileJobs(3);
        var evidence = Desk.Judged(id: "J-1").Evidence;
        _desk.Store.Kept[evidence.Record.Hash.ToString()][10] ^= 1;
        _desk.Store.Kept.Remove(evidence.Assessment.Hash.ToString());
        _desk.Store.Stored[5] = new StoredEntry(5, "{}"u8.ToArray());
        _desk.Store.Outside.Add("scribble\n");

        var codes = CodesFound();

        Assert.Equal(
            new[]
            {
                LedgerFaultCode.Checkpoint,
                LedgerFaultCode.ContentChanged,
                LedgerFaultCode.ContentMissing,
                LedgerFaultCode.Different,
                LedgerFaultCode.Entry,
                LedgerFaultCode.Head,
                LedgerFaultCode.Reference,
            }.Order(StringComparer.Ordinal),
            codes.Order(StringComparer.Ordinal)
        );
    }

    [Fact]
    public void Verify_ClockThatWentBack_IsARemarkAndNoFault()
    {
        FileJobs(1);
        _desk.Now = _desk.Now.AddYears(-10);
        FileJobs(1, 2);

        var verified = _desk.Verify();

        Assert.Empty(verified.Faults);
        Assert.Contains(
            verified.Remarks,
            remark => remark.Contains("at entry 3 the clock went back", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Verify_LogMadeAnewWithItsOwnKey_IsFoundOutByTheCheckpointsOutside()
    {
        FileJobs(2);
        var outside = _desk.Store.Outside.ToList();
        _desk.Store.Restore(new MemoryLedger());
        _desk.Store.Outside.Clear();
        FileJobs(2, 4);
        Assert.Empty(_desk.Verify().Faults);

        _desk.Store.Outside.AddRange(outside);

        Assert.Equal([LedgerFaultCode.Different], CodesFound());
    }
}
