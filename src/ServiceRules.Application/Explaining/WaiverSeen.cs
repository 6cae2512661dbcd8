using ServiceRules.Domain.Site;

namespace ServiceRules.Application.Explaining;

/// <summary>A waiver that the site's registers hold for a rule.</summary>
/// <param name="Waiver">The waiver.</param>
/// <param name="IsInForce">Whether the day of the record lies within it.</param>
/// <param name="File">The file, relative to the folder of rules.</param>
/// <param name="Pointer">Where in the file.</param>
public sealed record WaiverSeen(Waiver Waiver, bool IsInForce, string File, string Pointer);
