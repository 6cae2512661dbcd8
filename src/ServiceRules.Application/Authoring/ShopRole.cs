using ServiceRules.Domain.Site;

namespace ServiceRules.Application.Authoring;

/// <summary>What somebody of a shop does there, and with it what the register lets them do.</summary>
public enum ShopRole
{
    /// <summary>Locks out and works on machines.</summary>
    Technician,

    /// <summary>Does so too, and may order, waive and let out what others did.</summary>
    Lead,

    /// <summary>May let out what others did, and has no hands in machines.</summary>
    Officer,

    /// <summary>Uses machines, and leaves locks alone.</summary>
    Operator,
}

/// <summary>What the register says of whoever has a role.</summary>
public static class ShopRoles
{
    /// <summary>Somebody with a role; when they were trained or told is not said.</summary>
    /// <param name="id">Pseudonymous identity.</param>
    /// <param name="role">The role.</param>
    public static RegisteredPerson Person(string id, ShopRole role) =>
        Let(new(new(id), false, null, null), role);

    /// <summary>The same person with a role.</summary>
    /// <param name="person">The person.</param>
    /// <param name="role">The role.</param>
    public static RegisteredPerson Let(RegisteredPerson person, ShopRole role)
    {
        ArgumentNullException.ThrowIfNull(person);
        return person with
        {
            Authorised = role is ShopRole.Technician or ShopRole.Lead,
            MayRelease = role is ShopRole.Lead or ShopRole.Officer,
        };
    }
}
