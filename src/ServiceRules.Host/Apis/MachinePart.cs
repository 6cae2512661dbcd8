namespace ServiceRules.Host.Apis;

/// <summary>A machine in a list, for the description of the interface.</summary>
[Published("registers.registered-machine")]
internal sealed class MachinePart;
