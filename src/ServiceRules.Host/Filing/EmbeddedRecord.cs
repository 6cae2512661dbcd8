using System.Text.Json.Serialization;
using ServiceRules.Host.Apis;

namespace ServiceRules.Host.Filing;

/// <summary>A service record inside an answer.</summary>
[Published("service-record")]
[JsonConverter(typeof(EmbeddedJsonConverter))]
internal sealed record EmbeddedRecord(ReadOnlyMemory<byte> Bytes) : EmbeddedDocument(Bytes);
