using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Tests.Filed;
using ServiceRules.Application.Tests.Ledger;

namespace ServiceRules.Application.Tests.Submitting;

/// <summary>A desk that takes submissions, on a store that a test may make fail.</summary>
internal sealed class SubmissionDesk : IAsyncDisposable
{
    private static readonly AssessRecord Judging = new(RecordFiles.Rules.Book, RecordFiles.Rules.Site!);

    private readonly Desk _desk = new();
    private readonly SubmitRecord _submit;

    public SubmissionDesk(Func<MemoryLedger, ILedgerStore>? store = null, int waitingMost = 1024)
    {
        var opening = OpenLedger.Open(
            store?.Invoke(_desk.Store) ?? _desk.Store,
            _desk.Store,
            _desk.Signer,
            _desk
        );
        Ledger = Assert.IsType<LedgerOpening.Opened>(opening).Ledger;
        Filing = new GroupFiling(Ledger, waitingMost);
        _submit = new SubmitRecord(Judging, Ledger, Filing);
    }

    public MemoryLedger Store => _desk.Store;

    public OpenLedger Ledger { get; }

    public GroupFiling Filing { get; }

    public LedgerVerified Verify() => _desk.Verify();

    public AssessOutcome Judge(byte[] body) => _submit.Judge(body);

    public Task<SubmissionOutcome> SubmitAsync(
        byte[] body,
        string? key = null,
        Correction? correction = null,
        KnownSender? sender = null
    ) =>
        _submit.SubmitAsync(
            new Submission(body)
            {
                Key = key is null ? null : new SubmissionKey("", key),
                Correction = correction,
                Sender = sender,
            }
        );

    public async ValueTask DisposeAsync()
    {
        await Filing.DisposeAsync();
        _desk.Dispose();
    }

    /// <summary>The fixture of a height check under an identity of its own, changed: J-1 of one day, J-2 of the next.</summary>
    public static byte[] Job(string id, Action<JsonObject>? change = null)
    {
        var record = RecordFiles.Fixture("height-check");
        record["id"] = id;
        change?.Invoke(record);
        var day = new DateOnly(2026, 4, 12).AddDays(int.Parse(id.AsSpan(2), CultureInfo.InvariantCulture));
        return Encoding.UTF8.GetBytes(
            record
                .ToJsonString()
                .Replace(
                    "2026-04-13",
                    day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                    StringComparison.Ordinal
                )
        );
    }

    public static void Mend(JsonObject job) => job["units"]![0]!["entries"]![0]!["value"] = "3.81 mm";

    public static void LeaveOpen(JsonObject job)
    {
        job.Remove("signOff");
        job.Remove("followUp");
    }
}
