using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.Extensions.Options;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Formats.Exports;
using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Exports;

/// <summary>Writes a list to a file, byte for byte as it is answered on the request itself.</summary>
internal sealed class ExportWriting(OpenLedger ledger, IOptions<JsonOptions> json)
{
    /// <param name="request">Which list, as what.</param>
    /// <param name="among">The sites whose records stand in it; null: those of every one.</param>
    /// <param name="file">Where it is written to.</param>
    /// <param name="stop">When to break off.</param>
    public Task WriteAsync(
        ExportRequest request,
        ImmutableArray<string>? among,
        PartsWriter file,
        CancellationToken stop
    )
    {
        var filter = request.Filter;
        var records = new RecordFilter
        {
            Site = filter.Site,
            Machine = filter.Machine,
            Unit = filter.Unit,
            From = filter.From,
            Until = filter.Until,
            Disposition = filter.Disposition,
            State = filter.State,
            AllVersions = filter.AllVersions,
            Among = among,
        };
        return request.What switch
        {
            ExportedList.Records => WriteAsync(
                request.As,
                file,
                WholeList.Of(ledger.Rows.Records, records, new(), ToldRecord.Of),
                stop
            ),
            ExportedList.Units => WriteAsync(
                request.As,
                file,
                WholeList.Of(
                    ledger.Rows.Units,
                    new UnitFilter
                    {
                        // A disposition that is named is that of the unit, not of its job.
                        Of = records with
                        {
                            Unit = null,
                            Disposition = null,
                        },
                        Unit = filter.Unit,
                        Disposition = filter.Disposition,
                        LatestOnly = filter.LatestOnly,
                    },
                    new(),
                    ToldUnit.Of
                ),
                stop
            ),
            ExportedList.Findings => WriteAsync(
                request.As,
                file,
                WholeList.Of(
                    ledger.Rows.Findings,
                    new FindingFilter
                    {
                        Of = records with { Unit = null },
                        Rule = filter.Rule,
                        Unit = filter.Unit,
                        Verdict = filter.Verdict,
                        Severity = filter.Severity,
                        Effect = filter.Effect,
                    },
                    new(),
                    ToldFinding.Of
                ),
                stop
            ),
            ExportedList.Documents => WriteAsync(
                request.As,
                file,
                WholeList.Of(ledger.Rows.Records, records, new(), row => DocumentsLine.Of(ledger, row)),
                stop
            ),
            _ => throw new InvalidOperationException("an unknown list"),
        };
    }

    private Task WriteAsync<T>(
        ExportedForm form,
        PartsWriter file,
        IEnumerable<T> rows,
        CancellationToken stop
    )
        where T : class =>
        form is ExportedForm.Csv
            ? CsvAsync(file, Counted(file, rows), stop)
            : LinesAsync(file, Counted(file, rows), stop);

    private static IEnumerable<T> Counted<T>(PartsWriter file, IEnumerable<T> rows)
    {
        foreach (var row in rows)
        {
            file.Rows++;
            yield return row;
        }
    }

    private static async Task CsvAsync<T>(PartsWriter file, IEnumerable<T> rows, CancellationToken stop)
        where T : class
    {
        await using var text = new StreamWriter(
            file,
            new UTF8Encoding(encoderShouldEmitUTF8Identifier: false),
            leaveOpen: true
        );
        await CsvRows.WriteAsync(text, rows, stop);
    }

    private async Task LinesAsync<T>(PartsWriter file, IEnumerable<T> rows, CancellationToken stop)
    {
        foreach (var row in rows)
        {
            await file.WriteAsync(
                (byte[])
                    [.. JsonSerializer.SerializeToUtf8Bytes(row, json.Value.SerializerOptions), (byte)'\n'],
                stop
            );
        }
    }
}
