using System.Text.Json;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.Extensions.Options;
using ServiceRules.Application.Importing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Evidence;
using ServiceRules.Formats.Imports;
using ServiceRules.Formats.Json;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Tables;
using ServiceRules.Storage.Inbox;

namespace ServiceRules.Host.Inbox;

/// <summary>Files what was dropped, the way everything is filed, and says what came of it.</summary>
internal sealed class InboxDesk(FilingDesk desk, TimeProvider clock, IOptions<JsonOptions> json)
{
    private const string Kinds = "a record (*.json), or a table (*.csv, *.xlsx) with its mapping";

    /// <summary>Whether a file is to be read as a table.</summary>
    public static bool IsTable(string name) =>
        Path.GetExtension(name).ToUpperInvariant() is ".CSV" or ".XLSX";

    private static bool IsRecord(string name) => Path.GetExtension(name).ToUpperInvariant() is ".JSON";

    /// <summary>How many bytes of a file are read at most.</summary>
    public static int BytesMost(string name) => IsTable(name) ? TableLimits.Bytes : ReadLimits.Record.Bytes;

    public byte[] Written(InboxAnswer answer) =>
        JsonSerializer.SerializeToUtf8Bytes(answer, json.Value.SerializerOptions);

    /// <summary>A file that is refused without being filed.</summary>
    public InboxAnswer Refused(
        DroppedFile file,
        string what,
        string accepted,
        ReadOnlyMemory<byte>? bytes = null
    ) =>
        Answer(file, bytes, InboxOutcome.Refused) with
        {
            Problem = Complaint.Document(ProblemKind.Refused, what, accepted),
        };

    /// <summary>Files a file; null where the store could not take it now, so that it has to wait.</summary>
    /// <param name="file">The file.</param>
    /// <param name="bytes">Its bytes.</param>
    /// <param name="mapping">Its mapping, where it is a table.</param>
    public Task<InboxAnswer?> FileAsync(
        DroppedFile file,
        ReadOnlyMemory<byte> bytes,
        ImportMapping? mapping,
        CancellationToken stop
    ) =>
        IsRecord(file.Name) ? RecordAsync(file, bytes, stop)
        : !IsTable(file.Name)
            ? Task.FromResult<InboxAnswer?>(
                Refused(file, "nothing is known of files that end so", Kinds, bytes)
            )
        : mapping is null
            ? Task.FromResult<InboxAnswer?>(
                Refused(
                    file,
                    "it is not said which column goes where",
                    $"a mapping beside the table, `{file.MappingName}`, dropped before it; or one named when the service is started",
                    bytes
                )
            )
        : TableAsync(file, bytes, mapping, stop);

    private async Task<InboxAnswer?> RecordAsync(
        DroppedFile file,
        ReadOnlyMemory<byte> bytes,
        CancellationToken stop
    )
    {
        var filed = Answer(file, bytes, InboxOutcome.Filed);
        var refused = Answer(file, bytes, InboxOutcome.Refused);
        return await SubmitAsync(new Submission(bytes), stop) switch
        {
            SubmissionOutcome.Stored one => filed with { Record = SubmissionAnswer.Of(one.Submission, true) },
            SubmissionOutcome.Progressed one => filed with
            {
                Record = SubmissionAnswer.Of(one.Submission, true),
            },
            SubmissionOutcome.Stood one => filed with { Record = SubmissionAnswer.Of(one.Submission, false) },
            SubmissionOutcome.Conflict conflict => refused with
            {
                Problem = Complaint.Document(conflict.Refusal),
            },
            SubmissionOutcome.Declined declined => refused with
            {
                Problem = Complaint.Document(declined.Refusal),
            },
            SubmissionOutcome.Refused wrong => refused with { Problem = Complaint.Document(wrong.Problems) },
            SubmissionOutcome.Trouble or SubmissionOutcome.Broken => null,
            _ => throw new InvalidOperationException("an unknown outcome of submitting"),
        };
    }

    private async Task<InboxAnswer?> TableAsync(
        DroppedFile file,
        ReadOnlyMemory<byte> bytes,
        ImportMapping mapping,
        CancellationToken stop
    )
    {
        var read = TableFile.Read(bytes, mapping.Table);
        if (read is TableOutcome.Refused refused)
        {
            return Answer(file, bytes, InboxOutcome.Refused) with { Rows = ToldRow.All(refused.Problems) };
        }

        var mapped = MappedTable.Of(mapping, ((TableOutcome.Read)read).Table);
        if (!mapped.Faults.IsEmpty)
        {
            return Answer(file, bytes, InboxOutcome.Refused) with { Rows = ToldRow.All(mapped.Faults) };
        }

        var outcome = await new ImportRecords(SubmitAsync).FileAsync(mapped, stop: stop);
        return outcome.Stopped is not null
            ? null
            : Answer(file, bytes, outcome.IsWhole ? InboxOutcome.Filed : InboxOutcome.Refused) with
            {
                Records = [.. outcome.Records.Select(ToldImport.Of)],
            };
    }

    // Without a key nobody else can have the same one under way.
    private async Task<SubmissionOutcome> SubmitAsync(Submission submission, CancellationToken stop) =>
        await desk.SubmitAsync(submission, stop)
        ?? new SubmissionOutcome.Trouble(StoreTrouble.Busy, "another request is under way");

    private InboxAnswer Answer(DroppedFile file, ReadOnlyMemory<byte>? bytes, InboxOutcome outcome) =>
        new(
            file.Name,
            bytes is { } read ? ContentHash.Of(read.Span).ToString() : null,
            clock.GetUtcNow(),
            outcome
        );
}
