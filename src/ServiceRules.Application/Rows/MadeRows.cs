namespace ServiceRules.Application.Rows;

/// <summary>What the rows of one version come to by the log.</summary>
/// <param name="Rows">The rows; null: its content was removed on purpose, or something of them is lost.</param>
/// <param name="Lost">What of them is lost: nothing is known of them then. Null: nothing is.</param>
internal readonly record struct MadeRows(RecordRows? Rows, LostContent? Lost);
