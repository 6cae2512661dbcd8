namespace ServiceRules.Host.Verifying;

/// <summary>Where a report stands in the log of this service.</summary>
/// <param name="Record">The record that it is about.</param>
/// <param name="Entry">The entry of this very file.</param>
/// <param name="SupersededBy">The entry of a later assessment of that record; left out where the report tells the latest.</param>
internal sealed record ToldPlace(string Record, long Entry, long? SupersededBy);
