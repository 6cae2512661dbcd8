using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Tests.Filed;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Tests.Ledger;

/// <summary>A desk at which records are filed: store, shelf, key and a clock that a test sets.</summary>
internal sealed class Desk : TimeProvider, IDisposable
{
    public const string Job = "F-height-check";

    private static readonly AssessRecord Judging = new(RecordFiles.Rules.Book, RecordFiles.Rules.Site!);

    private readonly ECDsa _key = ECDsa.Create(ECCurve.NamedCurves.nistP256);

    public Desk() => Signer = new EcdsaLogSigner("ledger.example", _key);

    public MemoryLedger Store { get; } = new();

    public ILogSigner Signer { get; }

    public DateTimeOffset Now { get; set; } = new(2026, 4, 13, 9, 0, 0, 125, TimeSpan.Zero);

    public override DateTimeOffset GetUtcNow() => Now;

    public void Dispose() => _key.Dispose();

    public OpenLedger Open() =>
        OpenLedger.Open(Store, Store, Signer, this) switch
        {
            LedgerOpening.Opened opened => opened.Ledger,
            LedgerOpening.Refused refused => throw new InvalidOperationException(
                string.Join("; ", refused.Faults)
            ),
            _ => throw new InvalidOperationException(),
        };

    public IReadOnlyList<LedgerFault> FaultsAtOpening() =>
        OpenLedger.Open(Store, Store, Signer, this) is LedgerOpening.Refused refused ? refused.Faults : [];

    public LedgerVerified Verify() => new VerifyLedger(Store, Signer.Key).Verify([.. Store.All()], []);

    public FilingOutcome.Filed File(Assessed assessed, string? by = null) =>
        Assert.IsType<FilingOutcome.Filed>(new FileRecord(Open()).File(assessed, by));

    public FilingOutcome.Filed Amend(Assessed assessed, string by, string reason) =>
        Assert.IsType<FilingOutcome.Filed>(
            new FileRecord(Open()).Amend(assessed, new Correction(by, reason))
        );

    /// <summary>The fixture of a height check, changed, and judged.</summary>
    public static Assessed Judged(Action<JsonObject>? change = null, string id = Job)
    {
        var record = RecordFiles.Fixture("height-check");
        record["id"] = id;
        change?.Invoke(record);
        return Judging.Assess(Encoding.UTF8.GetBytes(record.ToJsonString())) switch
        {
            AssessOutcome.Judged judged => judged.Assessed,
            AssessOutcome.Refused refused => throw new InvalidOperationException(refused.Problems.ToString()),
            _ => throw new InvalidOperationException(),
        };
    }
}
