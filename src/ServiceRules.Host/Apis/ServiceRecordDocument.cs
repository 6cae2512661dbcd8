namespace ServiceRules.Host.Apis;

/// <summary>A body that is a service record, for the description of the interface.</summary>
[Published("service-record")]
internal sealed class ServiceRecordDocument;
