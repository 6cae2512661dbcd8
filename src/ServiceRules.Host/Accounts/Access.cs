using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Accounts;

/// <summary>Who may ask one thing.</summary>
/// <param name="Method">As in a request; <c>*</c>: of a route that takes any.</param>
/// <param name="Route">As it was mapped.</param>
/// <param name="Roles">Any of these opens it; null: nobody needs to be known.</param>
internal sealed record Access(string Method, string Route, Roles? Roles)
{
    public const string AnyMethod = "*";

    /// <summary>Whether it is open to somebody who has a password to change first.</summary>
    public bool BeforeChange { get; init; }

    public bool Opens(Caller? caller) =>
        Roles is not { } any
        || (caller is not null && (caller.Roles & any) != 0 && (BeforeChange || !caller.MustChange));
}
