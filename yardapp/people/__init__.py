"""Who may do what: people, roles, devices, sign-in and the audit trail."""
