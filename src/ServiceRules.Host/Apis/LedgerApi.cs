using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Evidence.Log;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/ledger</c>: what anybody needs to check the log without this product.</summary>
internal static class LedgerApi
{
    public static void MapLedger(this IEndpointRouteBuilder routes)
    {
        var ledger = routes.MapGroup("/api/ledger").WithTags("ledger");
        ledger
            .MapGet("/checkpoint", CheckpointAsync)
            .WithName("readCheckpoint")
            .WithSummary("The newest signed checkpoint (C2SP tlog-checkpoint).")
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.PlainText)
            .Complains(ProblemKind.NotFound);
        ledger
            .MapGet("/key", KeyAsync)
            .WithName("readLogKey")
            .WithSummary("The public key of the log, in PEM.")
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.Pem)
            .Complains();
        ledger
            .MapGet("/growth", GrowthAsync)
            .WithName("readGrowth")
            .WithSummary("The proof that the log only grew since it had a number of entries.")
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.PlainText)
            .Complains(ProblemKind.NotFound, ProblemKind.BadRequest);
        ledger
            .MapGet("/entries/{index:long}", EntryAsync)
            .WithName("readEntry")
            .WithSummary("An entry, byte for byte as it is a leaf of the tree.")
            .Produces<LedgerEntryDocument>()
            .Complains(ProblemKind.NotFound);
        ledger
            .MapGet("/entries/{index:long}/proof", ProofAsync)
            .WithName("readEntryProof")
            .WithSummary(
                "The proof that an entry stands in the log (C2SP tlog-proof), under the newest checkpoint."
            )
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.PlainText)
            .Complains(ProblemKind.NotFound);
    }

    private static async Task<IResult> CheckpointAsync(FilingDesk desk, CancellationToken stop) =>
        await desk.AskAsync(ledger => ledger.Head, stop) is { } head
            ? Text(head.Note, MediaTypes.Text)
            : Complaint.Of(ProblemKind.NotFound, "nothing was filed yet, so there is no checkpoint");

    private static async Task<IResult> KeyAsync(FilingDesk desk, CancellationToken stop) =>
        Text(await desk.AskAsync(ledger => ledger.Key.ToPem(), stop), MediaTypes.Pem);

    private static async Task<IResult> GrowthAsync(FilingDesk desk, long from, CancellationToken stop) =>
        await desk.AskAsync(
            ledger =>
                from >= 0 && from <= (ledger.Head?.Size ?? 0)
                    ? new GrowthProof(from, ledger.ProveGrowth(from)).ToString()
                    : null,
            stop
        )
            is { } proof
            ? Text(proof, MediaTypes.Text)
            : Complaint.Of(ProblemKind.NotFound, $"the log never had {Number(from)} entries");

    private static async Task<IResult> EntryAsync(FilingDesk desk, long index, CancellationToken stop) =>
        await desk.AskAsync(ledger => index < 0 ? null : ledger.Log.Entry(index), stop) is { } entry
            ? Conditional.Of(entry.Bytes, MediaTypes.Json)
            : None(index);

    private static async Task<IResult> ProofAsync(FilingDesk desk, long index, CancellationToken stop) =>
        await desk.AskAsync(
            ledger => index >= 0 && index < (ledger.Head?.Size ?? 0) ? ledger.Prove(index) : null,
            stop
        )
            is { } proof
            ? Text(proof, MediaTypes.Text)
            : None(index);

    private static IResult Text(string text, string type) =>
        Conditional.Of(Encoding.UTF8.GetBytes(text), type);

    private static IResult None(long index) =>
        Complaint.Of(ProblemKind.NotFound, $"there is no entry {Number(index)}");

    private static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);
}
