namespace ServiceRules.Host.Apis;

/// <summary>A gauge in a list, for the description of the interface.</summary>
[Published("registers.registered-instrument")]
internal sealed class InstrumentPart;
