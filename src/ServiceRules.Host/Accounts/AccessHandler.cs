using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace ServiceRules.Host.Accounts;

/// <summary>That a request is one that the table of access opens to whoever asks.</summary>
internal sealed class AccessRequirement : IAuthorizationRequirement;

/// <summary>Asks the table of access. What does not stand in it is refused.</summary>
internal sealed class AccessHandler : AuthorizationHandler<AccessRequirement>
{
    protected override Task HandleRequirementAsync(
        AuthorizationHandlerContext context,
        AccessRequirement requirement
    )
    {
        var caller = Caller.Of(context.User);
        var isOpen =
            context.Resource is HttpContext http
            && http.GetEndpoint() switch
            {
                RouteEndpoint route => AccessTable.Of(http.Request.Method, route)?.Opens(caller) is true,
                // No such address, or not by this method: told to those who are known.
                _ => caller is not null,
            };
        if (isOpen)
        {
            context.Succeed(requirement);
        }

        return Task.CompletedTask;
    }
}
