namespace ServiceRules.Application.Reports;

/// <summary>A version of the record that was filed later than the one of the report, and before the report.</summary>
/// <param name="Entry">The bytes of its leaf.</param>
/// <param name="Proof">The offline proof of that leaf under the checkpoint of the report's other proofs.</param>
public sealed record FiledNewer(ReadOnlyMemory<byte> Entry, string Proof);
