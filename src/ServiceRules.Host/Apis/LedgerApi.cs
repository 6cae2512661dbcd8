using System.ComponentModel;
using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence.Log;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/ledger</c>: what anybody needs to check the log without this product.</summary>
internal static class LedgerApi
{
    private const string IndexText = "the place of the entry in the log, from 0";

    public static void MapLedger(this IEndpointRouteBuilder routes)
    {
        var ledger = routes.MapGroup("/api/ledger").WithTags("ledger");
        ledger
            .MapGet("/checkpoint", Checkpoint)
            .WithName("readCheckpoint")
            .WithSummary("The newest signed checkpoint (C2SP tlog-checkpoint).")
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.PlainText)
            .Complains(ProblemKind.NotFound);
        ledger
            .MapGet("/key", Key)
            .WithName("readLogKey")
            .WithSummary("The public key of the log, in PEM.")
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.Pem)
            .Complains();
        ledger
            .MapGet("/growth", Growth)
            .WithName("readGrowth")
            .WithSummary("The proof that the log only grew since it had a number of entries.")
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.PlainText)
            .Complains(ProblemKind.NotFound, ProblemKind.BadRequest);
        ledger
            .MapGet("/entries/{index:long}", Entry)
            .WithName("readEntry")
            .WithSummary("An entry, byte for byte as it is a leaf of the tree.")
            .Produces<LedgerEntryDocument>()
            .Complains(ProblemKind.NotFound);
        ledger
            .MapGet("/entries/{index:long}/proof", Proof)
            .WithName("readEntryProof")
            .WithSummary(
                "The proof that an entry stands in the log (C2SP tlog-proof), under the newest checkpoint."
            )
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.PlainText)
            .Complains(ProblemKind.NotFound);
    }

    private static IResult Checkpoint(OpenLedger ledger) =>
        ledger.Head is { } head
            ? Text(head.Note, MediaTypes.Text)
            : Complaint.Of(ProblemKind.NotFound, "nothing was filed yet, so there is no checkpoint");

    private static IResult Key(OpenLedger ledger) => Text(ledger.Key.ToPem(), MediaTypes.Pem);

    private static IResult Growth(
        OpenLedger ledger,
        [Description("how many entries the log had; 0: from its beginning")] long from
    ) =>
        from >= 0 && from <= (ledger.Head?.Size ?? 0)
            ? Text(new GrowthProof(from, ledger.ProveGrowth(from)).ToString(), MediaTypes.Text)
            : Complaint.Of(ProblemKind.NotFound, $"the log never had {Number(from)} entries");

    private static IResult Entry(
        HttpContext context,
        OpenLedger ledger,
        [Description(IndexText)] long index
    ) =>
        Seen(context, ledger, index) is { } entry
            ? Conditional.Of(entry.Bytes, MediaTypes.Json)
            : None(index);

    private static IResult Proof(
        HttpContext context,
        OpenLedger ledger,
        [Description(IndexText)] long index
    ) =>
        Seen(context, ledger, index) is not null && index < (ledger.Head?.Size ?? 0)
            ? Text(ledger.Prove(index), MediaTypes.Text)
            : None(index);

    private static StoredEntry? Seen(HttpContext context, OpenLedger ledger, long index) =>
        index >= 0
        && ledger.Log.Entry(index) is { } entry
        && SeenEntries.Sees(Caller.Known(context.User), ledger, entry)
            ? entry
            : null;

    private static IResult Text(string text, string type) =>
        Conditional.Of(Encoding.UTF8.GetBytes(text), type);

    private static IResult None(long index) =>
        Complaint.Of(ProblemKind.NotFound, $"there is no entry {Number(index)}");

    private static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);
}
