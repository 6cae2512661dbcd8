using ServiceRules.Storage.Tests.Accounts;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteBesideTests() : BesideContract(() => new Drawer());
