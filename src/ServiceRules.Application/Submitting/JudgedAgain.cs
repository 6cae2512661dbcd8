using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Submitting;

/// <summary>A stored record that is judged otherwise in the light of a new one. What was filed of it stays.</summary>
/// <param name="Assessed">The record with its new assessment.</param>
internal sealed record JudgedAgain(Assessed Assessed)
{
    /// <summary>Why there is another assessment.</summary>
    /// <param name="record">The new record.</param>
    public static string ReasonOf(string record) => $"judged again in the light of {record}";

    public FilingPart Part(string record) =>
        new FilingPart.New(
            new EntryDraft(EntryKind.Assessment, Assessed.Record.Id.Text, Assessed.Evidence.Assessment.Bytes)
            {
                Of = Assessed.Evidence.Record.Hash,
                Reason = ReasonOf(record),
            }
        );
}
