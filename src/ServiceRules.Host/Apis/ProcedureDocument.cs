namespace ServiceRules.Host.Apis;

/// <summary>A written procedure in a list, for the description of the interface.</summary>
[Published("procedure")]
internal sealed class ProcedureDocument;
