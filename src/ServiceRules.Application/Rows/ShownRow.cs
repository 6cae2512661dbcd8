namespace ServiceRules.Application.Rows;

/// <summary>
/// One thing that the newest version of a record shows something of, with the days that it speaks of. People stand here by the
/// identities of the record itself, as long as the record is kept.
/// </summary>
/// <param name="What">Of what kind it is.</param>
/// <param name="Key">Which one.</param>
/// <param name="First">The first day that the record speaks of, as its times are written.</param>
/// <param name="Last">The last one.</param>
public sealed record ShownRow(ShownKind What, string Key, DateOnly First, DateOnly Last);
