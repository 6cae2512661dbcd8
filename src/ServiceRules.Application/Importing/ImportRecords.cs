using ServiceRules.Application.Submitting;

namespace ServiceRules.Application.Importing;

/// <summary>
/// Files the records of a table one after the other, as if each were sent. Each is filed whole or not at all; one that is
/// refused keeps none of the others back. Again, it adds nothing: what stands is told to stand.
/// </summary>
/// <param name="submit">The way in that every record takes.</param>
public sealed class ImportRecords(Func<Submission, CancellationToken, Task<SubmissionOutcome>> submit)
{
    /// <param name="table">The records.</param>
    /// <param name="by">Who answers for them; null: who signed each off.</param>
    /// <param name="told">Is told of each as it is done.</param>
    /// <param name="stop">Ends it between two records.</param>
    public async Task<ImportOutcome> FileAsync(
        MappedTable table,
        string? by = null,
        Action<ImportedRecord>? told = null,
        CancellationToken stop = default
    )
    {
        ArgumentNullException.ThrowIfNull(table);
        List<ImportedRecord> done = [];
        foreach (var record in table.Records)
        {
            var outcome = record.Problems.IsEmpty
                ? await submit(new Submission(record.Body) { By = by }, stop).ConfigureAwait(false)
                : null;
            if (outcome is SubmissionOutcome.Trouble or SubmissionOutcome.Broken)
            {
                return new([.. done], outcome);
            }

            var one = new ImportedRecord(
                record,
                outcome,
                outcome is SubmissionOutcome.Refused { Problems: var problems }
                    ? record.Of(problems)
                    : record.Problems
            );
            done.Add(one);
            told?.Invoke(one);
        }

        return new([.. done], null);
    }
}
