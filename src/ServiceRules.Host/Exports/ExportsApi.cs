using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Exports;

/// <summary><c>/api/exports</c>: whole lists as files, written while they are read.</summary>
internal static class ExportsApi
{
    public static void MapExports(this IEndpointRouteBuilder routes)
    {
        var exports = routes.MapGroup("/api/exports").WithTags("exports");
        Map<RowQuery, ToldRecord>(
            exports,
            "records",
            (query, ledger, caller) =>
                Rows(query, ledger.Rows.Records, query.FilterFor(caller), ToldRecord.Of)
        );
        Map<UnitQuery, ToldUnit>(
            exports,
            "units",
            (query, ledger, caller) => Rows(query, ledger.Rows.Units, query.UnitsFor(caller), ToldUnit.Of)
        );
        Map<FindingQuery, ToldFinding>(
            exports,
            "findings",
            (query, ledger, caller) =>
                Rows(query, ledger.Rows.Findings, query.FindingsFor(caller), ToldFinding.Of)
        );
        exports
            .MapGet("/documents.jsonl", DocumentsAsync)
            .WithName("exportDocuments")
            .WithSummary(
                "Records with their assessments as they are kept, one pair a line, the oldest first."
            )
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.Lines)
            .Complains(ProblemKind.BadRequest)
            .DisableRequestTimeout();
    }

    private static void Map<TQuery, TTold>(
        RouteGroupBuilder exports,
        string name,
        Func<TQuery, OpenLedger, Caller, IEnumerable<TTold>> rows
    )
        where TQuery : RowQuery
        where TTold : class
    {
        exports
            .MapGet(
                $"/{name}.jsonl",
                async (HttpContext context, [AsParameters] TQuery query, OpenLedger ledger) =>
                    await LinesAsync(context, query, () => rows(query, ledger, Caller.Known(context.User)))
            )
            .WithName($"export{Named(name)}Lines")
            .WithSummary($"The list of {name} as JSON lines, the oldest first.")
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.Lines)
            .Complains(ProblemKind.BadRequest)
            .DisableRequestTimeout();
        exports
            .MapGet(
                $"/{name}.csv",
                async (HttpContext context, [AsParameters] TQuery query, OpenLedger ledger) =>
                    await CsvAsync(
                        context,
                        name,
                        query,
                        () => rows(query, ledger, Caller.Known(context.User))
                    )
            )
            .WithName($"export{Named(name)}Csv")
            .WithSummary($"The list of {name} as CSV (RFC 4180), the oldest first.")
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.Csv)
            .Complains(ProblemKind.BadRequest)
            .DisableRequestTimeout();
    }

    private static string Named(string list) => char.ToUpperInvariant(list[0]) + list[1..];

    private static IEnumerable<TTold> Rows<TFilter, TRow, TTold>(
        RowQuery query,
        Func<TFilter, RowPaging, RowPage<TRow>> ask,
        TFilter filter,
        Func<TRow, TTold> tell
    ) => WholeList.Of(ask, filter, query.Paging, tell);

    private static async Task<IResult> LinesAsync<T>(
        HttpContext context,
        RowQuery query,
        Func<IEnumerable<T>> rows
    )
    {
        if (query.Fault(context.Request) is { } wrong)
        {
            return wrong;
        }

        context.Response.ContentType = MediaTypes.Lines;
        foreach (var row in rows())
        {
            await context.Response.BodyWriter.WriteAsync(
                (byte[])[.. AnswerJson.Bytes(row, context), (byte)'\n'],
                context.RequestAborted
            );
        }

        return Results.Empty;
    }

    private static async Task<IResult> CsvAsync<T>(
        HttpContext context,
        string name,
        RowQuery query,
        Func<IEnumerable<T>> rows
    )
        where T : class
    {
        if (query.Fault(context.Request) is { } wrong)
        {
            return wrong;
        }

        context.Response.ContentType = MediaTypes.Csv + "; charset=utf-8; header=present";
        context.Response.Headers.ContentDisposition = $"attachment; filename={name}.csv";
        await using var text = new StreamWriter(
            context.Response.Body,
            new UTF8Encoding(encoderShouldEmitUTF8Identifier: false),
            leaveOpen: true
        );
        await CsvRows.WriteAsync(text, rows(), context.RequestAborted);
        return Results.Empty;
    }

    private static async Task<IResult> DocumentsAsync(
        HttpContext context,
        [AsParameters] RowQuery query,
        OpenLedger ledger
    )
    {
        if (query.Fault(context.Request) is { } wrong)
        {
            return wrong;
        }

        context.Response.ContentType = MediaTypes.Lines;
        var filter = query.FilterFor(Caller.Known(context.User));
        foreach (var row in Rows(query, ledger.Rows.Records, filter, row => row))
        {
            await context.Response.BodyWriter.WriteAsync(
                (byte[])[.. AnswerJson.Bytes(DocumentsLine.Of(ledger, row), context), (byte)'\n'],
                context.RequestAborted
            );
        }

        return Results.Empty;
    }
}
