namespace ServiceRules.Application.Rows;

/// <summary>One unit in one version of a record.</summary>
/// <param name="Of">The version.</param>
/// <param name="Ordinal">Its place in the record, counted from 0.</param>
/// <param name="Unit">Identity of the unit.</param>
/// <param name="Disposition">Whether it may go out.</param>
public sealed record UnitRow(RecordRow Of, int Ordinal, string Unit, string Disposition);
