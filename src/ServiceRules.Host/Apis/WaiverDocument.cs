namespace ServiceRules.Host.Apis;

/// <summary>A waiver as it is sent, for the description of the interface.</summary>
[Published("waiver")]
internal sealed class WaiverDocument;
