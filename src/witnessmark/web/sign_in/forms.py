"""What is asked at the door."""

from django import forms


class SignInForm(forms.Form):
    """Name and password."""

    name = forms.CharField(label="Name", max_length=150)
    password = forms.CharField(label="Password", max_length=200, widget=forms.PasswordInput)


class FirstOwnerForm(SignInForm):
    """The owner of a new workshop, with the password twice."""

    again = forms.CharField(label="The password again", max_length=200, widget=forms.PasswordInput)

    def clean(self) -> dict[str, object]:
        """The two passwords are the same, and no easy one."""
        from django.contrib.auth.password_validation import validate_password

        given: dict[str, object] = super().clean() or self.cleaned_data
        password = str(given.get("password", ""))
        if password and password != given.get("again"):
            self.add_error("again", "The two passwords differ.")
        elif password:
            try:
                validate_password(password)
            except forms.ValidationError as fault:
                self.add_error("password", fault)
        return given
