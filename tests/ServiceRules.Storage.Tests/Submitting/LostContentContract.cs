using System.Text.Json.Nodes;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>A content that is lost: what stands of it, what a start says, and how it comes back.</summary>
public abstract class LostContentContract : DrawerContract
{
    private const string FromBefore = """
        UPDATE record_row SET digest = NULL, overtaken_digest = NULL, units_digest = NULL, findings_digest = NULL, shown_digest = NULL;
        UPDATE row_cover SET size = 0
        """;

    private static readonly Correction Why = new("lead-01", "no copy has it, and the machine was looked at");

    private protected LostContentContract(Func<Drawer> drawer)
        : base(drawer) { }

    public static TheoryData<string, bool> Parts =>
        new()
        {
            { "content", false },
            { "content", true },
            { "assessment", false },
            { "context", false },
        };

    [SkippableTheory]
    [MemberData(nameof(Parts))]
    public async Task Rows_MadeAnewByANewerVersion_StandAsTheyWereWhereAContentIsLostAndAreTold(
        string part,
        bool isOther
    )
    {
        (List<RecordRow> Records, List<UnitRow> Units, List<FindingRow> Findings) before;
        string export;
        string lost;
        await using (var counter = new Counter(Drawer))
        {
            await counter.SubmitAsync(Jobs.Job("J-1"));
            await counter.SubmitAsync(Jobs.Job("J-3"));
            before = counter.All();
            export = Export(counter);
            lost = DigestOf(counter, "J-1", part);
        }

        Lose(lost, isOther);
        Drawer.Change(FromBefore);

        await using (var counter = new Counter(Drawer))
        {
            var index = before.Records.Single(row => row.Record == "J-1").Index;
            // Both jobs share their context.
            var shared = part == "context" ? 2 : 1;
            var faults = new CheckHeldRows(counter.Ledger).Check();
            Assert.Equal(shared, faults.Length);
            var fault = faults[0];
            Assert.Equal(LedgerFaultCode.ContentMissing, fault.Code);
            Assert.Contains($"entry {index}, record `J-1`", fault.Where, StringComparison.Ordinal);
            Assert.Contains(lost, fault.Told, StringComparison.Ordinal);
            Assert.Contains(
                isOther ? "kept with other bytes" : "missing, and no erasure",
                fault.Told,
                StringComparison.Ordinal
            );
            // Nothing of it is told: whether it is what was made of the log, nobody can say.
            Assert.Equal(
                StoreTrouble.Rows,
                Assert
                    .Throws<LedgerStoreException>(() =>
                        counter.Rows.Records(new RecordFilter(), new RowPaging())
                    )
                    .Trouble
            );
            if (shared == 1)
            {
                Assert.Equal("J-3", Assert.Single(counter.Rows.Versions("J-3")).Record);
            }

            Assert.Contains(
                Drawer.Verify().Faults,
                one => one.Where == fault.Where && one.Code == LedgerFaultCode.ContentMissing
            );
            Assert.Contains(
                Assert.IsType<LedgerOpening.Opened>(Anew(counter.Folder)).Remarks,
                remark => remark.Contains("ledger mend --from COPY", StringComparison.Ordinal)
            );

            var rebuilt = new RebuildRows(counter.Ledger).Rebuild();
            Assert.Equal(counter.Ledger.Head!.Size, rebuilt.Entries);
            Assert.Equal(faults.AsEnumerable(), rebuilt.Lost);
            Assert.Equal(faults.AsEnumerable(), new RebuildRows(counter.Ledger).Check());

            var mended = new MendContents(counter.Ledger).Mend(ExportedLedger.Open(export));
            Assert.Single(mended.PutBack);
            Assert.Empty(mended.StillLost);
        }

        await using var again = new Counter(Drawer);
        Assert.Equal(before.Records, again.All().Records);
        Assert.Equal(before.Units, again.All().Units);
        Assert.Equal(before.Findings, again.All().Findings);
        Assert.Empty(new CheckHeldRows(again.Ledger).Check());
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableTheory]
    [MemberData(nameof(Parts))]
    public async Task Rebuild_WhereAContentIsLost_NamesItAndLeavesItsRowsAsTheyWereMade(
        string part,
        bool isOther
    )
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(Jobs.Job("J-3"));
        var before = counter.All();
        Lose(DigestOf(counter, "J-1", part), isOther);
        if (part != "context")
        {
            Drawer.Change("UPDATE unit_row SET disposition = 'clear' WHERE entry_index > 2");
        }

        var rebuilt = new RebuildRows(counter.Ledger).Rebuild();

        Assert.Contains("record `J-1`", rebuilt.Lost[0].Where, StringComparison.Ordinal);
        Assert.Equal(part == "context" ? 2 : 1, rebuilt.Lost.Length);
        Assert.Equal(before.Records, counter.All().Records);
        Assert.Equal(before.Units, counter.All().Units);
        Assert.Empty(new CheckHeldRows(counter.Ledger).Check());
    }

    [SkippableFact]
    public async Task Record_OnWhichALostOneMayBear_IsNotJudgedWithoutIt()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(Jobs.Job("J-3"));
        var export = Export(counter);
        Lose(DigestOf(counter, "J-1", "content"), false);
        // As an instance that was started since: it has read nothing yet.
        await using var other = new Counter(Drawer);

        var refused = Assert.IsType<SubmissionOutcome.Trouble>(await other.SubmitAsync(Jobs.Job("J-2")));

        Assert.Equal(StoreTrouble.Damaged, refused.What);
        Assert.Contains("entry 1", refused.Message, StringComparison.Ordinal);
        Assert.Empty(other.Rows.Versions("J-2"));
        _ = new MendContents(counter.Ledger).Mend(ExportedLedger.Open(export));
        Assert.IsType<SubmissionOutcome.Stored>(await other.SubmitAsync(Jobs.Job("J-2")));
    }

    [SkippableTheory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task GiveUp_OfARecordWhoseContentIsLost_LetsOthersBeFiledAndSaysWhoAnswersForIt(bool isOther)
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(Jobs.Job("J-3"));
        var export = Export(counter);
        var lost = DigestOf(counter, "J-1", "content");
        Lose(lost, isOther);
        await using var other = new Counter(Drawer);
        Assert.IsType<SubmissionOutcome.Trouble>(await other.SubmitAsync(Jobs.Job("J-2")));

        var outcome = new GiveUpLost(counter.Ledger).GiveUp("J-1", Why);

        var entry = Assert.Single(Assert.IsType<FilingOutcome.Filed>(outcome).Entries).Entry.Entry;
        Assert.Equal("lead-01", counter.Ledger.Log.PersonBehind(entry.By!));
        Assert.Equal(Why.Reason, entry.Reason);
        Assert.IsType<SubmissionOutcome.Stored>(await other.SubmitAsync(Jobs.Job("J-2")));
        Assert.Empty(counter.Rows.Versions("J-1"));
        Assert.Empty(new CheckHeldRows(counter.Ledger).Check());
        Assert.Empty(Drawer.Verify().Faults);
        var version = Assert.Single(new TellSubject(counter.Ledger.Log).Tell("J-1"));
        Assert.False(version.IsDamaged);
        Assert.StartsWith("given up as lost on ", version.WhyNone, StringComparison.Ordinal);
        Assert.Empty(new MendContents(counter.Ledger).Mend(ExportedLedger.Open(export)).PutBack);
    }

    [SkippableFact]
    public async Task GiveUp_OfWhatIsNotLost_IsRefused()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        var giveUp = new GiveUpLost(counter.Ledger);
        var size = counter.Ledger.Head!.Size;

        Assert.Contains("no record `J-9`", Refused("J-9"), StringComparison.Ordinal);
        Assert.Contains("nothing is lost", Refused("J-1"), StringComparison.Ordinal);
        Assert.Equal(size, counter.Ledger.Head!.Size);

        string Refused(string record) =>
            Assert.IsType<FilingOutcome.Refused>(giveUp.GiveUp(record, Why)).Refusal.What;
    }

    [SkippableTheory]
    [InlineData("content")]
    [InlineData("assessment")]
    [InlineData("context")]
    [InlineData("packs")]
    public async Task Report_OfWhatIsLost_IsNotToldAsOneThatIsKeptNoMore(string part)
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        var export = Export(counter);
        Lose(DigestOf(counter, "J-1", part), false);

        var lost = Assert.Throws<LedgerStoreException>(() =>
            counter.Ledger.Read(log => ReportBasis.Of(log, "J-1"))
        );

        Assert.Equal(StoreTrouble.Damaged, lost.Trouble);
        _ = new MendContents(counter.Ledger).Mend(ExportedLedger.Open(export));
        Assert.IsType<ReportBasis.Judged>(counter.Ledger.Read(log => ReportBasis.Of(log, "J-1")));
    }

    [SkippableFact]
    public async Task Amendment_OfARecordWhoseContentIsLost_StandsInItsPlace()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        Lose(DigestOf(counter, "J-1", "content"), false);
        await using var other = new Counter(Drawer);

        var outcome = await other.SubmitAsync(
            Jobs.Job("J-1", Jobs.Mend),
            null,
            new Correction("lead-01", "its content was lost")
        );

        Assert.IsType<SubmissionOutcome.Amended>(outcome);
        Assert.Empty(new CheckHeldRows(other.Ledger).Check());
    }

    [SkippableFact]
    public async Task Mend_OfWhatWasRemovedOnPurpose_PutsNothingBack()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(Jobs.Start());
        var old = Export(counter);
        Assert.IsType<FilingOutcome.Filed>(
            new ForgetPerson(counter.Ledger).Forget("tech-04", new Correction("officer-01", "asked"), true)
        );
        var rows = counter.All().Records;

        var mended = new MendContents(counter.Ledger).Mend(ExportedLedger.Open(old));

        Assert.Empty(mended.PutBack);
        Assert.Empty(mended.StillLost);
        Assert.Equal(rows, counter.All().Records);
    }

    [SkippableFact]
    public async Task Mend_WhereItIsLostWhatWasRemovedOnPurpose_PutsNothingElseBack()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(Jobs.Start());
        var old = Export(counter, "old");
        var forgotten = Assert.IsType<FilingOutcome.Filed>(
            new ForgetPerson(counter.Ledger).Forget("tech-04", new Correction("officer-01", "asked"), true)
        );
        var newer = Export(counter, "newer");
        var erasure = forgotten.Entries.Single(one => one.Entry.Entry.Content.Length > 0).Entry.Entry.Content;
        Lose(erasure, false);

        var held = new MendContents(counter.Ledger).Mend(ExportedLedger.Open(old));

        Assert.True(held.IsHeldBack);
        Assert.Empty(held.PutBack);
        Assert.Single(held.StillLost);
        var mended = new MendContents(counter.Ledger).Mend(ExportedLedger.Open(newer));
        Assert.Single(mended.PutBack);
        Assert.False(mended.IsHeldBack);
        Assert.Empty(mended.StillLost);
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public async Task Mend_FromACopyThatDoesNotHaveIt_SaysWhatIsLostStill()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        var old = Export(counter);
        await counter.SubmitAsync(Jobs.Job("J-3"));
        Lose(DigestOf(counter, "J-1", "content"), false);
        Lose(DigestOf(counter, "J-3", "content"), false);

        var mended = new MendContents(counter.Ledger).Mend(ExportedLedger.Open(old));

        Assert.Contains("`J-1`", Assert.Single(mended.PutBack), StringComparison.Ordinal);
        Assert.Contains("`J-3`", Assert.Single(mended.StillLost).Where, StringComparison.Ordinal);
    }

    private LedgerOpening Anew(LedgerFolder folder)
    {
        Drawer.Change("UPDATE row_cover SET size = 0");
        return Drawer.Opening(folder);
    }

    private string Export(Counter counter, string name = "export")
    {
        _ = new ExportLedger(counter.Ledger.Log, counter.Ledger.Key).To(Drawer.At(name));
        return Drawer.At(name);
    }

    private static string DigestOf(Counter counter, string record, string part)
    {
        var row = counter.Rows.Versions(record).Single(one => one.IsNewest);
        return part switch
        {
            "content" => row.RecordHash,
            "assessment" => row.AssessmentHash!,
            _ => JsonNode.Parse(counter.Ledger.Log.Sound(row.AssessmentHash!)!.Value.Span)!["digests"]![
                part
            ]!.GetValue<string>(),
        };
    }

    private void Lose(string digest, bool isOther)
    {
        var hex = digest["sha256:".Length..];
        var where = Drawer.IsPostgres ? $"encode(hash, 'hex') = '{hex}'" : $"lower(hex(hash)) = '{hex}'";
        var other = Drawer.IsPostgres ? "'x'::bytea" : "x'78'";
        Drawer.Change(
            isOther
                ? $"UPDATE content SET bytes = {other} WHERE {where}"
                : $"DELETE FROM content WHERE {where}"
        );
    }
}
