namespace ServiceRules.Host.Filing;

/// <summary>A document inside an answer, byte for byte as it is kept.</summary>
internal abstract record EmbeddedDocument(ReadOnlyMemory<byte> Bytes);
