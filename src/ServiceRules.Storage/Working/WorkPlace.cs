using System.Data.Common;

namespace ServiceRules.Storage.Working;

/// <summary>Where work behind answers is kept.</summary>
/// <param name="Factory">Makes connections.</param>
/// <param name="Address">The connection string.</param>
/// <param name="IsShared">Whether several instances work on it, each with its turn.</param>
internal sealed record WorkPlace(DbProviderFactory Factory, string Address, bool IsShared);
