using ServiceRules.Application.Accounts;
using ServiceRules.Application.Due;
using ServiceRules.Application.Exporting;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Waiving;
using ServiceRules.Application.Working;
using ServiceRules.Storage;

namespace ServiceRules.Host.Setup;

/// <summary>The private folder of the service: its ledger, held against its checkpoints, and the keys of its reports.</summary>
internal sealed class ServiceFolder : IDisposable
{
    /// <summary>The folder of the ledger in it.</summary>
    public const string LedgerName = ServiceCopies.LedgerName;

    private const string KeysName = ServiceCopies.KeysName;
    private const string OldProtectionName = "protection";
    private const string ScratchName = "scratch";
    private const int ToldMost = 5;

    private readonly LedgerFolder ledgerFolder;

    private ServiceFolder(
        string path,
        LedgerFolder ledgerFolder,
        OpenLedger ledger,
        IReadOnlyList<string> remarks
    )
    {
        this.ledgerFolder = ledgerFolder;
        Ledger = ledger;
        Remarks = remarks;
        Keys = Path.Combine(path, KeysName);
        Accounts = new LoggedAccounts(ledger, ledgerFolder.Accounts);
        Notices = new LoggedNotices(ledger, ledgerFolder.Notices);
        Scratch = Path.Combine(path, ScratchName);
    }

    public OpenLedger Ledger { get; }

    public IReadOnlyList<string> Remarks { get; }

    /// <summary>Who may come in.</summary>
    public IAccountStore Accounts { get; }

    /// <summary>Who is still to be told of what was filed.</summary>
    public INoticeStore Notices { get; }

    /// <summary>Which packs and sheets judge here.</summary>
    public IRulesStore Rules => ledgerFolder.Rules;

    /// <summary>Waivers that were entered beside the registers.</summary>
    public IWaiverReading Waivers => ledgerFolder.Waivers;

    /// <summary>Lists that somebody wants as files.</summary>
    public IExportStore Exports => ledgerFolder.Exports;

    /// <summary>How far the log was handed to the queue.</summary>
    public IWorkMarks WorkMarks => ledgerFolder.WorkMarks;

    /// <summary>What is to be judged again, and what came of it.</summary>
    public IRejudgingStore Rejudgings => ledgerFolder.Rejudgings;

    /// <summary>What falls due, and who was told of it.</summary>
    public IDueStore Due => ledgerFolder.Due;

    /// <summary>Opens the work that goes on behind answers.</summary>
    public IWorkQueue OpenWork() => ledgerFolder.OpenWork();

    /// <summary>Where the key is that signs reports.</summary>
    public string Keys { get; }

    /// <summary>The keys that protect what browsers keep for the service.</summary>
    public ISealedKeyStore SealedKeys => ledgerFolder.SealedKeys;

    /// <summary>A secret for one use, which every instance beside the same log has.</summary>
    public byte[] SecretFor(string use) => ledgerFolder.SecretFor(use);

    /// <summary>Whether a service was ever started in it.</summary>
    public static bool IsBegun(string path) => LedgerFolder.IsBegun(Path.Combine(path, LedgerName));

    /// <summary>Where archives that were sent are unpacked for as long as they are looked at.</summary>
    public string Scratch { get; }

    /// <exception cref="StartRefusedException">It cannot be used, or its ledger is not the one its checkpoints speak of.</exception>
    public static ServiceFolder Open(string path, TimeProvider clock)
    {
        try
        {
            if (PrivateFolder.Make(path) is { } fault)
            {
                throw new StartRefusedException($"the data folder cannot be used: {fault}");
            }

            var place = Path.Combine(path, LedgerName);
            // Beside the folder and not in it: what puts the folder back from a copy must not put these back too.
            var shelf = new CheckpointFolder(CheckpointFolder.Beside(path));
            CheckNotOfAnother(place, shelf);
            var held = Held(path, place, shelf, clock);
            RemoveOldProtection(path);
            return held;
        }
        // That there is no room is told as such: nothing that was given is at fault.
        catch (Exception failure)
            when (failure is IOException or UnauthorizedAccessException && !DiskFull.Is(failure))
        {
            throw new StartRefusedException($"the data folder `{path}` cannot be used: {failure.Message}");
        }
    }

    public void Dispose() => ledgerFolder.Dispose();

    private static void CheckNotOfAnother(string place, CheckpointFolder shelf)
    {
        if (!LedgerFolder.IsBegun(place) && shelf.All().FirstOrDefault(one => !one.IsOfOthers) is not null)
        {
            throw new StartRefusedException(
                $"there is no ledger in `{place}`, but `{shelf.Place}` keeps checkpoints of one; nothing was begun; accepted: that "
                    + "ledger put back, or another data folder"
            );
        }
    }

    // Keys of sessions lay here, readable; now they are in the database, sealed, and sessions of before have ended.
    private static void RemoveOldProtection(string path)
    {
        var old = new DirectoryInfo(Path.Combine(path, OldProtectionName));
        if (!old.Exists)
        {
            return;
        }

        foreach (var key in old.EnumerateFiles("key-*.xml"))
        {
            key.Delete();
        }

        if (!old.EnumerateFileSystemInfos().Any())
        {
            old.Delete();
        }
    }

    // What bears on a job is found by them, and what is to be looked at is listed by them.
    private static void DemandRows(OpenLedger ledger, string place, CheckpointFolder shelf)
    {
        var faults = new CheckHeldRows(ledger).Check();
        if (!faults.IsEmpty)
        {
            var lost = faults.Where(fault => fault.Code == LedgerFaultCode.ContentMissing).ToList();
            var which = $"--ledger {place} --checkpoints {shelf.Place}";
            throw new StartRefusedException([
                lost.Count == 0
                    ? $"what lists and searches of the ledger in `{place}` are made of was changed; the service does not start"
                    : $"contents of the ledger in `{place}` are lost that lists and searches are made of; the service does not start",
                .. lost.Concat(faults.Except(lost)).Take(ToldMost).Select(fault => $"  {fault}"),
                $"`servicerules ledger verify {which}` tells everything that differs.",
                .. lost.Count == 0
                    ? []
                    : new[]
                    {
                        $"`servicerules ledger mend --from COPY {which}` puts contents back from a backup, or from an export.",
                    },
                .. lost.Count == faults.Length
                    ? []
                    : new[]
                    {
                        $"`servicerules ledger rows --rebuild {which}` makes what was changed anew from the log.",
                    },
            ]);
        }
    }

    private static ServiceFolder Held(string path, string place, CheckpointFolder shelf, TimeProvider clock)
    {
        var folder = LedgerFolder.OpenOrCreate(place);
        try
        {
            switch (OpenLedger.Open(folder.Store, shelf, folder.Signer, clock))
            {
                case LedgerOpening.Opened opened:
                    // A ledger from before has entries that queries do not know of.
                    _ = new FollowLog(opened.Ledger).BringUp();
                    DemandRows(opened.Ledger, place, shelf);
                    return new ServiceFolder(
                        path,
                        folder,
                        opened.Ledger,
                        [.. opened.Remarks, .. KeyRemarks(path, opened.Ledger)]
                    );
                case LedgerOpening.Refused refused:
                    throw new StartRefusedException([
                        $"the ledger in `{place}` is not the one that its checkpoints speak of; the service does not start",
                        .. refused.Faults.Take(ToldMost).Select(fault => $"  {fault}"),
                        $"`servicerules ledger verify --ledger {place} --checkpoints {shelf.Place}` tells everything that is wrong with it.",
                    ]);
                default:
                    throw new InvalidOperationException("an unknown outcome of opening");
            }
        }
        catch
        {
            folder.Dispose();
            throw;
        }
    }

    // New reports would be signed by another key, and earlier ones be told as signed by one that does not count here.
    private static IEnumerable<string> KeyRemarks(string path, OpenLedger ledger)
    {
        var keys = Path.Combine(path, KeysName);
        if (!new DirectoryInfo(keys).Exists && ledger.Read(log => log.Entries(0).Any(IsReport)))
        {
            yield return $"reports were signed here, and `{keys}` with the keys that signed them is not there: reports are signed with a new "
                + "key, and the signatures of earlier ones do not count; put the folder back from a copy and start again";
        }
    }

    private static bool IsReport(StoredEntry stored) =>
        stored.Bytes.Span.IndexOf("\"kind\":\"report\""u8) >= 0;
}
